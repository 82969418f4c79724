// Decides: what becomes of a client's state on a ladder when the plan, and with it the chain, is another one.
// Source: our choice: nobody trains harder because a plan changed, save where the therapist names another start; that is
// counted as a start of its own, and time off from its day. Reviewed 2026-11.
import { comparePlaces, type Chain } from '#src/domain/chain.ts'
import type { LocalDate } from '#src/domain/identifier.ts'
import { noRuns } from './decide.ts'
import type { LadderState } from './ladder-state.ts'
import { locate, placeAt, startOn, type PlaceIndex } from './moves.ts'

export interface CarryingOver {
  readonly state: LadderState
  /** As the new plan makes it. */
  readonly chain: Chain
  /** The rung the therapist has named to start on; null where it is the one that stood in the plan before. */
  readonly newStart: number | null
  readonly on: LocalDate
}

/** Held where even the lowest dose of the new chain is harder than the present one: then the therapist has to say. */
export function carryOver({ state, chain, newStart, on }: CarryingOver): LadderState {
  if (newStart !== null) return startAnew(state, chain, startOn(chain, newStart), on)
  const place = placeAt(chain, locate(chain, state.place))
  return { ...state, place, isHeld: state.isHeld || comparePlaces(place, state.place) > 0 }
}

/** The therapist has put the client at a dose: runs of bad sessions end, and what was counted on each rung stays. */
export function startAnew(state: LadderState, chain: Chain, index: PlaceIndex, on: LocalDate): LadderState {
  const place = placeAt(chain, index)
  const lastTrained = state.lastTrained === null ? null : { on, place }
  return { ...state, place, runs: noRuns, isHeld: false, lastTrained }
}
