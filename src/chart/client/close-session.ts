// The end of a session: what was done becomes the matter of the next decision, and the client is told what comes of it.
import { sideOf, type Direction, type LadderId } from '#src/domain/direction.ts'
import { controls } from '#src/domain/set-report.ts'
import type { SetOutcome } from '#src/rules/judge-session.ts'
import type { LadderState } from '#src/rules/ladder-state.ts'
import { locate, placeAt } from '#src/rules/moves.ts'
import { checkInAt } from '#src/schedule/check-in-at.ts'
import { addDays } from '#src/schedule/wall-time.ts'
import type { Chart, OpenSession, PendingLadder, PendingSession, Prescribed, SessionLine } from '../chart.ts'
import type { Draft } from '../draft.ts'
import { withoutTimer, withTimer } from '../timer.ts'
import { scheduleAbsence } from './absence-timer.ts'
import { countSession } from './count-training.ts'
import { gatesOf } from './gates.ts'
import { chainOf, exerciseOf, loadFactsOf, planOf, stateOf } from './plan-facts.ts'
import { requestPermissions } from './requests.ts'
import { addSet, reportOf, sessionOf, setsOf, setsOn } from './session-state.ts'
import { decisionsOf, settlePending, tellConcernsOfNow } from './settle-pending.ts'
import { sayPrescriptionAhead, saySummary } from './summary.ts'
import { checkStepUp } from './watch.ts'

const dayMs = 24 * 3_600_000
const recentMs = 8 * dayMs
const linesKept = 5

export function closeSession(draft: Draft<Chart>): void {
  // A set that was shown and not wholly answered counts with what is known of it.
  const { asked, underWay } = sessionOf(draft.document)
  if (asked) addSet(draft, underWay && reportOf(underWay))
  const session = sessionOf(draft.document)
  draft.record('session-closed', 'nuchal', { session: session.id, endedEarly: session.endedEarly, stopped: session.stopped })
  draft.closesVolume = true
  const timers = withoutTimer(withoutTimer(draft.document.timers, 'silence'), 'session-end')
  // Left before the pain now was told: nothing was prescribed, and the last session still waits for its decision.
  if (session.prescribed.length === 0) return draft.change({ session: null, timers })
  for (const work of workOf(session)) countTraining(draft, session, work)
  countTurns(draft, session)
  countSession(draft, session)
  const pending = pendingOf(draft, session)
  const { zone, schedule } = planOf(draft.document)
  const dueAt = checkInAt({ on: addDays(session.on, 1), zone, quiet: schedule.quiet })
  draft.change({
    session: null,
    pending,
    history: [...draft.document.history, lineOf(session)].slice(-linesKept),
    lastSessionOn: session.on,
    lastSessionAt: session.startedAt,
    timers: withTimer(timers, { kind: 'check-in', about: '', dueAt }),
  })
  scheduleAbsence(draft)
  // A red flag is decided at once; what is said to the client then is the red flag's business.
  if (session.hasRedFlag) return settlePending(draft)
  const ahead = decisionsOf(draft.document, draft.content, true)
  saySummary(draft, session)
  sayPrescriptionAhead(draft, ahead, true)
  tellConcernsOfNow(draft)
  checkStepUp(draft)
  requestPermissions(draft, ahead)
}

/** What was prescribed on one ladder: both sides have the same place and dose. */
interface Work {
  readonly ladder: LadderId
  readonly directions: readonly Direction[]
  readonly place: Prescribed['place']
  readonly dose: Prescribed['dose']
}

function workOf({ prescribed }: OpenSession): readonly Work[] {
  return [...new Map(prescribed.map((one) => [one.ladder, one])).values()].map(({ ladder, place, dose }) => {
    const directions = prescribed.filter((one) => one.ladder === ladder).map((one) => one.direction)
    return { ladder, directions, place, dose }
  })
}

/** A session with every set left out does not count as trained; for the spacing it counts, or leaving out would pay. */
function countTraining(draft: Draft<Chart>, session: OpenSession, { ladder, place }: Work): void {
  const state = stateOf(draft.document, ladder, draft.content)
  const isRationed = exerciseOf(draft.content, place.exercise).spacing.sessionsPerWeek !== null
  const recent = [...state.recent.filter((past) => session.startedAt - past.at < recentMs), { at: session.startedAt, isRationed }]
  const isTrained = setsOn(session, ladder).some((set) => set.report !== null)
  const counted: LadderState = isTrained ? { ...state, recent, ...trainedOn(state, session, place) } : { ...state, recent }
  draft.change({ states: { ...draft.document.states, [ladder]: counted } })
}

/** Left out by turns is no absence: whoever trained today is counted as having been there for the others too. */
function countTurns(draft: Draft<Chart>, { sets, notTheirTurn, on }: OpenSession): void {
  if (sets.every((set) => set.report === null)) return
  const states = { ...draft.document.states }
  for (const ladder of notTheirTurn) {
    const state = states[ladder]
    if (state?.lastTrained) states[ladder] = { ...state, lastTrained: { ...state.lastTrained, on } }
  }
  draft.change({ states })
}

function trainedOn(state: LadderState, session: OpenSession, place: Prescribed['place']): Pick<LadderState, 'lastTrained' | 'rungs'> {
  const onRung = state.rungs[place.rung]
  const counted = { firstOn: onRung?.firstOn ?? session.on, sessions: (onRung?.sessions ?? 0) + 1 }
  return { lastTrained: { on: session.on, place }, rungs: { ...state.rungs, [place.rung]: counted } }
}

function pendingOf(draft: Draft<Chart>, session: OpenSession): PendingSession {
  return {
    id: session.id,
    on: session.on,
    endedAt: draft.at,
    painBefore: session.painNowCorrected ?? session.painNow,
    endedEarly: session.endedEarly,
    hasRedFlag: session.hasRedFlag,
    ladders: workOf(session).map((work) => pendingLadderOf(draft, session, work)),
    morning: null,
    worstSince: null,
    toldRules: [],
  }
}

function pendingLadderOf(draft: Draft<Chart>, session: OpenSession, { ladder, directions, place, dose }: Work): PendingLadder {
  return {
    ladder,
    directions,
    place,
    sets: directions.flatMap((direction) => outcomesOf(session, direction, dose.sets)),
    isStopped: session.stopped.includes(ladder),
    isUnmeasuredEntry: isUnmeasuredEntry(draft, ladder, place),
    gates: gatesOf(draft, ladder, stateOf(draft.document, ladder, draft.content)),
    isReleased: false,
    placed: null,
  }
}

function outcomesOf(session: OpenSession, direction: Direction, count: number): readonly SetOutcome[] {
  const done = setsOf(session, direction)
  return Array.from({ length: count }, (_, index) => {
    const set = done[index]
    return { side: sideOf(direction), number: index + 1, report: set?.corrected ?? set?.report ?? null }
  })
}

/** A band entered without a measured maximum: the first set tells whether the entry is low enough. */
function isUnmeasuredEntry(draft: Draft<Chart>, ladder: LadderId, place: Prescribed['place']): boolean {
  const plan = planOf(draft.document)
  const chain = chainOf(plan, ladder, draft.content)
  const { work } = exerciseOf(draft.content, place.exercise)
  const isBand = work.kind === 'repetitions' && work.load === 'band'
  return isBand && loadFactsOf(plan, ladder, draft.content).maximum === null && placeAt(chain, locate(chain, place)).isEntry
}

function lineOf(session: OpenSession): SessionLine {
  const reports = session.sets.flatMap((set) => set.report ?? [])
  const pains = [...reports.map((report) => report.pain), ...(session.painNow === null ? [] : [session.painNow])]
  const worst = Math.max(-1, ...reports.flatMap((report) => (report.control === null ? [] : [controls.indexOf(report.control)])))
  return {
    on: session.on,
    setsDone: reports.length,
    setsAsked: session.prescribed.reduce((sum, prescribed) => sum + prescribed.dose.sets, 0),
    worstPain: pains.length === 0 ? null : Math.max(...pains),
    worstControl: controls[worst] ?? null,
  }
}
