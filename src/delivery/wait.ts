/** Resolves after `ms`, or at once when the signal aborts; never rejects. */
export type Wait = (ms: number, signal?: AbortSignal) => Promise<void>
