import { turnUntil } from './event-loop.ts'

interface Waiting {
  readonly dueAt: number
  readonly end: () => void
}

/** Time that passes only when a test says so. */
export interface VirtualWait {
  now(): number
  /** How much longer each wait takes, in ms. */
  remaining(): readonly number[]
  wait(ms: number, signal?: AbortSignal): Promise<void>
  /** Turns the event loop until somebody waits for exactly `ms`, then lets that time pass. */
  pass(ms: number): Promise<void>
}

export function createVirtualWait(): VirtualWait {
  let now = 0
  const waiting = new Set<Waiting>()
  return {
    now: () => now,
    remaining: () => [...waiting].map(({ dueAt }) => dueAt - now),
    wait: (ms, signal) =>
      new Promise((resolve) => {
        if (signal?.aborted) return resolve()
        const entry: Waiting = {
          dueAt: now + ms,
          end() {
            waiting.delete(entry)
            signal?.removeEventListener('abort', entry.end)
            resolve()
          },
        }
        waiting.add(entry)
        signal?.addEventListener('abort', entry.end)
      }),
    async pass(ms) {
      await turnUntil(() => [...waiting].some(({ dueAt }) => dueAt === now + ms), `somebody waits for ${ms} ms`)
      now += ms
      const due = [...waiting].filter(({ dueAt }) => dueAt <= now)
      for (const { end } of due.sort((a, b) => a.dueAt - b.dueAt)) end()
    },
  }
}
