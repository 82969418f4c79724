/** What is told to a process that was started with `moved-process.ts`; each is answered with `{ done: kind }` once it holds. */
export type Order = { readonly kind: 'clock'; readonly offsetMs: number } | { readonly kind: 'disk'; readonly isFull: boolean }

/** Milliseconds that the process's clock is ahead of the machine's when it starts. */
export const offsetVariable = 'CLOCK_OFFSET_MS'
