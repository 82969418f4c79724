// Decides: whether a reminder found due is too late to be of use.
// Source: our choice: after two hours it is skipped and noted, so that a long stop never ends in a burst.
import type { Instant } from '#src/domain/identifier.ts'
import { hourMs } from './wall-time.ts'

const latestMs = 2 * hourMs

/** The last instant at which it is still of use. */
export function latestOf(dueAt: Instant): Instant {
  return dueAt + latestMs
}

export function isStale(dueAt: Instant, at: Instant): boolean {
  return at > latestOf(dueAt)
}
