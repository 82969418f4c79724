/** Resolves after `ms`, or at once when the signal aborts; never rejects. */
export type Wait = (ms: number, signal?: AbortSignal) => Promise<void>

export const waitFor: Wait = (ms, signal) =>
  new Promise((resolve) => {
    if (signal?.aborted) return resolve()
    const end = (): void => {
      clearTimeout(timer)
      signal?.removeEventListener('abort', end)
      resolve()
    }
    const timer = setTimeout(end, ms)
    signal?.addEventListener('abort', end)
  })

/** Waits until `done` settles, but no longer than `ms`. */
export async function waitAtMost(ms: number, done: Promise<unknown>, wait: Wait, signal: AbortSignal): Promise<void> {
  const over = new AbortController()
  const end = (): void => over.abort()
  signal.addEventListener('abort', end)
  if (signal.aborted) end()
  void done.then(end, end)
  await wait(ms, over.signal)
  signal.removeEventListener('abort', end)
}
