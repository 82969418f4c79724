// What is kept of one client on one ladder between sessions: of a direction, or of two sides together.
import type { Place } from '#src/domain/chain.ts'
import type { Instant, LocalDate } from '#src/domain/identifier.ts'
import { noRuns, type Runs } from './decide.ts'

export interface LadderState {
  readonly place: Place
  readonly runs: Runs
  /** Null until a session was trained; a session with every set left out does not count. */
  readonly lastTrained: { readonly on: LocalDate; readonly place: Place } | null
  /** Sessions trained on each rung and the day of the first, never forgotten, so that both only grow. */
  readonly rungs: Readonly<Record<number, { readonly firstOn: LocalDate; readonly sessions: number }>>
  /** When it was prescribed in the last eight days, and on which exercise's spacing. */
  readonly recent: readonly { readonly at: Instant; readonly isRationed: boolean }[]
  /** Sessions still to go without progress after a lock. */
  readonly sessionsWithoutProgress: number
  /** Stopped until the therapist answers. */
  readonly isHeld: boolean
}

export function newLadderState(place: Place): LadderState {
  return { place, runs: noRuns, lastTrained: null, rungs: {}, recent: [], sessionsWithoutProgress: 0, isHeld: false }
}
