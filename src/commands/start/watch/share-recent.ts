import type { Instant } from '#src/domain/identifier.ts'
import type { Clock } from '#src/ports/clock.ts'

/** Asks at most once in `forMs`: whoever asks meanwhile gets the same answer. */
export function shareRecent<T>(ask: () => Promise<T>, forMs: number, clock: Clock): () => Promise<T> {
  let last: { readonly askedAt: Instant; readonly answer: Promise<T> } | null = null
  return () => {
    const now = clock.now()
    // A clock that was set back must not keep an answer for hours.
    if (last === null || now - last.askedAt >= forMs || now < last.askedAt) last = { askedAt: now, answer: ask() }
    return last.answer
  }
}
