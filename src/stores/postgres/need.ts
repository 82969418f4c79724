import type { Instant } from '#src/domain/identifier.ts'

/** Our choice: who sends what is owed is looked at again after so long, in case they died over it. */
export const lookAgainMs = 20_000
/** A wake-up that should have come so long ago was lost (a queue that somebody emptied, a restored backup). */
const lostAfterMs = 120_000

export interface Need {
  readonly nextDueAt: Instant | null
  readonly owing: number
}

/** When a document has to be looked at next; null: not before it changes. */
export function neededAt({ nextDueAt, owing }: Need, now: Instant): Instant | null {
  const lookAt = owing > 0 ? now + lookAgainMs : Infinity
  const at = Math.min(nextDueAt ?? Infinity, lookAt)
  return at === Infinity ? null : at
}

/** The wake-up to be sent, if the one that is on its way (`wakeAt`) comes too late or not at all. */
export function wakeUpFor(need: Need, wakeAt: Instant | null, now: Instant): Instant | null {
  const at = neededAt(need, now)
  if (at === null) return null
  const isComing = wakeAt !== null && wakeAt <= at && wakeAt > now - lostAfterMs
  return isComing ? null : at
}
