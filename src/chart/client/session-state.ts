// The session under way: what has been done, what comes next, and the facts that its flow decides by.
import { ladderOf, type Direction, type LadderId } from '#src/domain/direction.ts'
import type { Dose } from '#src/domain/dose.ts'
import type { Facts } from '#src/conversation/flow.ts'
import type { SetReport } from '#src/domain/set-report.ts'
import { afterSet, type AfterSet } from '#src/rules/after-set.ts'
import { easeFrom, locate, placeAt } from '#src/rules/moves.ts'
import { painZone } from '#src/rules/pain-zone.ts'
import type { Chart, OpenSession, Prescribed, SetRecord, SetUnderWay } from '../chart.ts'
import type { Draft } from '../draft.ts'
import { chainOf, planOf, protocolOf } from './plan-facts.ts'

/** The next set to ask, with the dose as eased on the way. */
export interface NextSet {
  readonly prescribed: Prescribed
  /** From 1. */
  readonly number: number
  readonly dose: Dose
  readonly isEased: boolean
  readonly needsLongerRest: boolean
}

export function sessionOf(chart: Chart): OpenSession {
  if (chart.session === null) throw new RangeError('no session is open')
  return chart.session
}

export function setsOf(session: OpenSession, direction: Direction): readonly SetRecord[] {
  return session.sets.filter((set) => set.direction === direction)
}

/** Of both sides, where it has two. */
export function setsOn(session: OpenSession, ladder: LadderId): readonly SetRecord[] {
  return session.sets.filter((set) => ladderOf(set.direction) === ladder)
}

/** The answers of a set before the first of them. */
export const notStarted: SetUnderWay = { isFinished: true, pain: null, control: null, reserve: null, better: {} }

export function changeSession(draft: Draft<Chart>, patch: Partial<OpenSession>): void {
  draft.change({ session: { ...sessionOf(draft.document), ...patch } })
}

/** What is answered of a set so far, as its report; null before its pain is known. */
export function reportOf({ pain, control, reserve, isFinished }: SetUnderWay): SetReport | null {
  return pain === null ? null : { pain, control, reserve, finished: isFinished }
}

/** The set's instructions have been shown. */
export function noteAsked(draft: Draft<Chart>): void {
  const next = nextSet(draft)
  if (!next) return
  const { direction, place } = next.prescribed
  changeSession(draft, { asked: { direction, exercise: place.exercise, dose: next.dose, number: next.number } })
}

/** Adds the set asked as reported, or as left out. */
export function addSet(draft: Draft<Chart>, report: SetReport | null): void {
  const session = sessionOf(draft.document)
  if (session.asked === null) throw new RangeError('a report for a set that was not asked')
  const { number, ...set } = session.asked
  const better = session.underWay?.better ?? {}
  const corrected = report !== null && Object.keys(better).length > 0 ? { ...report, ...better } : null
  const record = { ...set, report, corrected }
  changeSession(draft, { sets: [...session.sets, record], underWay: null, asked: null })
  draft.record('set', 'client', { session: session.id, number, ...record })
}

/** What the rules say after the reports on a ladder so far. */
export function consequence(draft: Draft<Chart>, ladder: LadderId): AfterSet {
  const session = sessionOf(draft.document)
  const plan = planOf(draft.document)
  return afterSet({
    reports: setsOn(session, ladder).flatMap((set) => set.report ?? []),
    othersStopped: session.stopped.filter((stopped) => stopped !== ladder).length,
    usualPain: plan.usualPain,
    protocol: protocolOf(plan, draft.content),
  })
}

export function nextSet(draft: Draft<Chart>): NextSet | null {
  const session = sessionOf(draft.document)
  const current = currentDirection(session)
  const prescribed = session.prescribed.find((one) => one.direction === current)
  if (!prescribed) return null
  const { eases, needsLongerRest } = consequence(draft, prescribed.ladder)
  const number = setsOf(session, prescribed.direction).length + 1
  return { prescribed, number, dose: easedDose(draft, prescribed, eases), isEased: eases > 0, needsLongerRest }
}

/** The direction whose set is next; null where none is left. */
export function currentDirection(session: OpenSession): Direction | null {
  if (session.isOver) return null
  const isOpen = ({ ladder, direction, dose }: Prescribed): boolean =>
    setsOf(session, direction).length < dose.sets && !session.stopped.includes(ladder)
  return session.prescribed.find(isOpen)?.direction ?? null
}

/** The prescribed dose eased as often as the session calls for. */
function easedDose(draft: Draft<Chart>, prescribed: Prescribed, eases: number): Dose {
  if (eases === 0) return prescribed.dose
  const plan = planOf(draft.document)
  const chain = chainOf(plan, prescribed.ladder, draft.content)
  let index = locate(chain, { ...prescribed.place, dose: prescribed.dose, standing: 'again' })
  for (let count = 0; count < eases; count += 1) index = easeFrom(chain, index, protocolOf(plan, draft.content))
  return placeAt(chain, index).dose
}

/** What takes working out is worked out once a guard reads it: most answers need none of it. */
export function sessionFacts(draft: Draft<Chart>): Facts {
  const { session, pending, training, lock } = draft.document
  if (session === null) return { hasBegun: false, hasSets: false, asksEffort: training.unrated !== null && lock === null }
  const plan = planOf(draft.document)
  const last = session.sets.at(-1)
  const pain = session.underWay?.pain ?? null
  return {
    hasBegun: true,
    hasSets: session.sets.length > 0,
    needsMorning: pending !== null && pending.morning === null && !session.hasAskedMorning,
    needsWorstSince: pending !== null && !session.hasAskedWorstSince,
    isAnythingDue: session.prescribed.length > 0,
    before: session.before,
    isSetUnderWay: pain !== null,
    get hasNextSet() {
      return nextSet(draft) !== null
    },
    get isRed() {
      return pain !== null && painZone(pain, plan.usualPain, protocolOf(plan, draft.content)) === 'red'
    },
    get asksSymptom() {
      return last !== undefined && last.report !== null && consequence(draft, ladderOf(last.direction)).asksSymptom
    },
  }
}
