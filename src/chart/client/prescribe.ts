// What a session asks: the place decided, lowered by absence, left out where it has to rest.
import type { Direction } from '#src/domain/direction.ts'
import type { Reason } from '#src/domain/decision.ts'
import { afterAbsence } from '#src/rules/absence.ts'
import { easeFrom, locate, placeAt } from '#src/rules/moves.ts'
import { isSpaced } from '#src/rules/spacing.ts'
import { daysBetween } from '#src/schedule/wall-time.ts'
import type { Chart, Prescribed } from '../chart.ts'
import type { Draft } from '../draft.ts'
import { daysSinceReview } from './gates.ts'
import { chainOf, directionsOf, exerciseOf, planOf, protocolOf, stateOf, todayOf } from './plan-facts.ts'
import { raiseRoutine } from './raise-routine.ts'
import { say } from './say.ts'

/** The prescription of the session that begins now; moves the directions where absence lowers them. */
export function prescribe(draft: Draft<Chart>, isEased: boolean): readonly Prescribed[] {
  const plan = planOf(draft.document)
  const { noSessionAfterDays } = protocolOf(plan, draft.content).supervision
  if (daysSinceReview(draft) >= noSessionAfterDays) return []
  return directionsOf(plan).flatMap((direction) => prescribeDirection(draft, direction, isEased) ?? [])
}

function prescribeDirection(draft: Draft<Chart>, direction: Direction, isEased: boolean): Prescribed | null {
  const plan = planOf(draft.document)
  const protocol = protocolOf(plan, draft.content)
  const chain = chainOf(plan, direction, draft.content)
  const reasons = lowerAfterAbsence(draft, direction)
  const state = stateOf(draft.document, direction, draft.content)
  const index = locate(chain, state.place)
  const place = placeAt(chain, index)
  if (state.isHeld || !isSpaced(exerciseOf(draft.content, place.exercise), state, draft.at)) return null
  const { dose } = placeAt(chain, isEased ? easeFrom(chain, index, protocol) : index)
  return { direction, place, dose, reasons }
}

function lowerAfterAbsence(draft: Draft<Chart>, direction: Direction): readonly Reason[] {
  const plan = planOf(draft.document)
  const chain = chainOf(plan, direction, draft.content)
  const state = stateOf(draft.document, direction, draft.content)
  if (state.lastTrained === null) return []
  const daysOff = daysBetween(state.lastTrained.on, todayOf(draft))
  const { place, reasons, isTold } = afterAbsence(chain, state, daysOff, protocolOf(plan, draft.content))
  if (reasons.length === 0) return []
  draft.change({ states: { ...draft.document.states, [direction]: { ...state, place: placeAt(chain, place) } } })
  draft.record('absence', 'nuchal', { direction, daysOff, place: placeAt(chain, place), reasons })
  if (isTold) for (const reason of reasons) raiseRoutine(draft, { title: say(draft, 'therapist').reason(reason), direction, request: null })
  return reasons
}
