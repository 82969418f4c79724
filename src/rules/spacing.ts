// Decides: whether enough time has passed to train a direction again.
// Source: our choice: band 20 hours apart, harness and bridge 40 hours and at most three in seven days. Reviewed 2026-11.
import type { Exercise } from '#src/domain/exercise.ts'
import type { Instant } from '#src/domain/identifier.ts'
import type { LadderState } from './ladder-state.ts'

const hourMs = 3_600_000
const weekMs = 7 * 24 * hourMs

export function isSpaced(exercise: Exercise, state: LadderState, at: Instant): boolean {
  const last = state.recent.at(-1)
  const hasRested = last === undefined || at - last.at >= exercise.spacing.hours * hourMs
  const rationed = state.recent.filter((session) => session.isRationed && at - session.at < weekMs)
  const { sessionsPerWeek } = exercise.spacing
  return hasRested && (sessionsPerWeek === null || rationed.length < sessionsPerWeek)
}
