// What a session asks: the ladders whose turn it is, each at the place decided, lowered by absence, left out where it has
// to rest.
import type { Reason } from '#src/domain/decision.ts'
import type { LadderId } from '#src/domain/direction.ts'
import type { LocalDate } from '#src/domain/identifier.ts'
import { afterAbsence } from '#src/rules/absence.ts'
import { composeSession, type ComposedLadder } from '#src/rules/compose-session.ts'
import { easeFrom, locate, placeAt } from '#src/rules/moves.ts'
import { laddersOf } from '#src/rules/plan-ladders.ts'
import { isSpaced } from '#src/rules/spacing.ts'
import { turnOn } from '#src/schedule/training-day.ts'
import { daysBetween } from '#src/schedule/wall-time.ts'
import type { Chart, Prescribed } from '../chart.ts'
import type { Draft } from '../draft.ts'
import { daysSinceReview } from './gates.ts'
import { chainOf, exerciseOf, ladderIn, plannedOf, planOf, protocolOf, stateOf, todayOf } from './plan-facts.ts'
import { raiseRoutine } from './raise-routine.ts'
import { say } from './say.ts'
import { sessionOf } from './session-state.ts'
import { warmUpsOf } from './warm-ups.ts'

export interface Prescription {
  /** In the order of work. */
  readonly prescribed: readonly Prescribed[]
  readonly notTheirTurn: readonly LadderId[]
}

/** The prescription of the session that begins now; moves the ladders where absence lowers them. */
export function prescribe(draft: Draft<Chart>, isEased: boolean): Prescription {
  if (hasSupervisionLapsed(draft)) return { prescribed: [], notTheirTurn: [] }
  const all = laddersOf(planOf(draft.document))
  const lowered = new Map(all.map((ladder) => [ladder, lowerAfterAbsence(draft, ladder)]))
  const today = laddersOn(draft, todayOf(draft))
  return {
    prescribed: today.flatMap((ladder) => prescribeLadder(draft, ladder, isEased, lowered.get(ladder) ?? [])),
    notTheirTurn: all.filter((ladder) => !today.includes(ladder)),
  }
}

/** What the session asks goes into the record, with what it is warmed up for. */
export function recordPrescription(draft: Draft<Chart>, prescribed: readonly Prescribed[]): void {
  draft.record('prescription', 'nuchal', { session: sessionOf(draft.document).id, prescribed, warmUps: warmUpsOf(draft, prescribed) })
}

/** Whether a session that began now would ask for anything, as far as is known before its questions. */
export function isAnythingDue(draft: Draft<Chart>): boolean {
  return !hasSupervisionLapsed(draft) && laddersOn(draft, todayOf(draft)).some((ladder) => isDue(draft, ladder))
}

function hasSupervisionLapsed(draft: Draft<Chart>): boolean {
  return daysSinceReview(draft) >= protocolOf(planOf(draft.document), draft.content).supervision.noSessionAfterDays
}

/** Neither stopped until the therapist answers, nor too soon after the last time. */
function isDue(draft: Draft<Chart>, ladder: LadderId): boolean {
  const state = stateOf(draft.document, ladder, draft.content)
  const chain = chainOf(planOf(draft.document), ladder, draft.content)
  const { exercise } = placeAt(chain, locate(chain, state.place))
  return !state.isHeld && isSpaced(exerciseOf(draft.content, exercise), state, draft.at)
}

/** Whose turn it is follows from the plan and the date alone, so that no answer ever gives another direction more. */
export function laddersOn(draft: Draft<Chart>, date: LocalDate): readonly LadderId[] {
  const plan = planOf(draft.document)
  const { sets, session } = protocolOf(plan, draft.content)
  const ladders = laddersOf(plan).map((ladder): ComposedLadder => {
    const { muscles } = ladderIn(draft.content, ladder)
    return { ladder, directions: plannedOf(plan, ladder).directions.length, setsPerDirection: sets[ladder], muscles }
  })
  const most = { directions: session.mostDirections, sets: session.mostSets }
  return composeSession({ ladders, turn: turnOn(date, plan.schedule.days), most }).ladders
}

/** Both sides at one place. */
function prescribeLadder(draft: Draft<Chart>, ladder: LadderId, isEased: boolean, reasons: readonly Reason[]): readonly Prescribed[] {
  const plan = planOf(draft.document)
  const protocol = protocolOf(plan, draft.content)
  const chain = chainOf(plan, ladder, draft.content)
  const index = locate(chain, stateOf(draft.document, ladder, draft.content).place)
  const place = placeAt(chain, index)
  if (!isDue(draft, ladder)) return []
  const { dose } = placeAt(chain, isEased ? easeFrom(chain, index, protocol) : index)
  return plannedOf(plan, ladder).directions.map((direction) => ({ ladder, direction, place, dose, reasons }))
}

function lowerAfterAbsence(draft: Draft<Chart>, ladder: LadderId): readonly Reason[] {
  const plan = planOf(draft.document)
  const chain = chainOf(plan, ladder, draft.content)
  const state = stateOf(draft.document, ladder, draft.content)
  if (state.lastTrained === null) return []
  const daysOff = daysBetween(state.lastTrained.on, todayOf(draft))
  const { place, reasons, isTold } = afterAbsence(chain, state, daysOff, protocolOf(plan, draft.content))
  if (reasons.length === 0) return []
  draft.change({ states: { ...draft.document.states, [ladder]: { ...state, place: placeAt(chain, place) } } })
  draft.record('absence', 'nuchal', { ladder, daysOff, place: placeAt(chain, place), reasons })
  if (isTold) for (const reason of reasons) raiseRoutine(draft, { title: say(draft, 'therapist').reason(reason), ladder, request: null })
  return reasons
}
