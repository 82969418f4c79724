// What may never happen in a rehearsal, each as a function that lists its breaches.
import type { Answers, SessionAnswers, SetAnswer } from '#src/commands/rehearse/answers-schema.ts'
import type { RehearsedSession } from '#src/commands/rehearse/collect-session.ts'
import type { Plan } from '#src/domain/plan.ts'
import { chainOf } from '#src/chart/client/plan-facts.ts'
import type { DecisionKind } from '#src/domain/decision.ts'
import { ladderIds, ladderOf, type Direction } from '#src/domain/direction.ts'
import { painZone } from '#src/rules/pain-zone.ts'
import { content, novice } from '../support/sample-chain.ts'
import { compareHardness, describePrescription, loadOf, workOf, type PrintedPrescription } from './hardness.ts'

export interface Rehearsed {
  readonly name: string
  readonly plan: Plan
  readonly script: Answers
  readonly sessions: readonly RehearsedSession[]
}

export type Law = (rehearsed: Rehearsed) => readonly string[]

/** Guards limits against the last bit of a binary fraction. */
const epsilon = 1e-9

interface Change {
  readonly index: number
  readonly from: PrintedPrescription
  readonly to: PrintedPrescription
  /** What the earlier one was decided. */
  readonly decision: DecisionKind | undefined
}

/**
 * What was prescribed in one session and in the next that prescribed anything, direction by direction. Sessions begun with
 * more than comfortable pain show the dose one ease down for that day only, and going back from it is no raise: they are
 * passed over.
 */
function changes(rehearsed: Rehearsed): readonly Change[] {
  return directionsIn(rehearsed.plan).flatMap((direction) => changesIn(rehearsed, direction))
}

function changesIn({ plan, script, sessions }: Rehearsed, direction: Direction): readonly Change[] {
  const whole = sessions.flatMap((during, index) => {
    const from = workOf(during, direction)
    return from !== null && isComfortableBefore(script.sessions[index], plan) ? [{ index, from, during }] : []
  })
  return whole.slice(1).map(({ index, from: to }, before) => {
    const { from, during } = whole[before] ?? { from: to, during: undefined }
    if (during === undefined) throw new RangeError('a change without a session before it')
    return { index, from, to, decision: decisionOn(during, direction) }
  })
}

function directionsIn(plan: Plan): readonly Direction[] {
  return plan.ladders.map(({ direction }) => direction)
}

function decisionOn(session: RehearsedSession, direction: Direction): DecisionKind | undefined {
  return session.decisions.find((one) => one.direction === direction)?.decision
}

function isComfortableBefore(answers: SessionAnswers | undefined, plan: Plan): boolean {
  const pain = answers?.before?.pain
  return pain != null && painZone(pain, plan.usualPain, novice()) === 'comfortable'
}

function told(changes: readonly Change[]): readonly string[] {
  return changes.map(({ index, from, to }) => `session ${index}: ${describePrescription(from)} became ${describePrescription(to)}`)
}

function work(sessions: readonly RehearsedSession[]): readonly PrintedPrescription[] {
  return sessions.flatMap(({ prescription }) => prescription.filter((one) => !one.warmup))
}

export const neverRaisesLoadAndRepetitions: Law = (rehearsed) =>
  told(changes(rehearsed).filter(({ from, to }) => to.rung === from.rung && loadOf(to) > loadOf(from) && to.reps > from.reps))

/** A load step above 10 % needs repetitions beyond the range of 8 to 12: 14 of them, above 25 % 16. */
export const raisesLoadByTenPercentAtMost: Law = (rehearsed) =>
  told(
    changes(rehearsed).filter(({ from, to }) => {
      const isLoaded = to.rung === from.rung && from.push === null && loadOf(from) > 0 && loadOf(to) > loadOf(from)
      const step = loadOf(to) / loadOf(from) - 1
      const repsNeeded = step > 0.25 + epsilon ? 16 : step > 0.1 + epsilon ? 14 : 12
      return isLoaded && from.reps < repsNeeded
    }),
  )

export const progressesByOnePlace: Law = (rehearsed) => {
  return told(
    changes(rehearsed).filter(({ from, to }) => {
      if (compareHardness(to, from) <= 0) return false
      const ladder = distinctDoses(rehearsed.plan, to.direction)
      const indexOf = (one: PrintedPrescription): number => ladder.findIndex((dose) => compareHardness(dose, one) === 0)
      const [at, next] = [indexOf(from), indexOf(to)]
      const entersNextRung = ladder[at + 1]?.rung === to.rung && to.rung !== from.rung
      return at < 0 || next < 0 || !(next === at + 1 || entersNextRung)
    }),
  )
}

/** A gap may lower a dose that progress had raised, and the lock's clearing too; nothing but progress raises one. */
export const raisesOnlyAfterProgress: Law = (rehearsed) =>
  told(changes(rehearsed).filter(({ from, to, decision }) => compareHardness(to, from) > 0 && decision !== 'progress'))

/** Every dose of the client's chain once, easiest first, in the form in which it is printed. */
function distinctDoses(plan: Plan, direction: Direction): readonly PrintedPrescription[] {
  return chainOf(plan, ladderOf(direction), content)
    .places.filter((place) => place.standing !== 'again')
    .map(({ rung, exercise, dose: { sets, reps, holdSeconds, load } }) => ({
      direction,
      exercise,
      rung,
      sets,
      reps,
      hold_s: holdSeconds,
      load_kg: load.kind === 'mass' ? load.kilograms : null,
      load_n: load.kind === 'force' ? load.newtons : null,
      push: load.kind === 'push' ? load.effort : null,
      warmup: false,
    }))
}

export const easesByTenPercentOrToTheLowest: Law = (rehearsed) => {
  return told(
    changes(rehearsed).filter(({ from, to, decision }) => {
      const isEased = decision === 'ease' && to.rung === from.rung
      const lowest = distinctDoses(rehearsed.plan, to.direction).find((dose) => dose.rung === to.rung)
      const isLowest = lowest !== undefined && compareHardness(to, lowest) === 0
      return isEased && !isLowest && !isTenPercentLower(to, from)
    }),
  )
}

function isTenPercentLower(to: PrintedPrescription, from: PrintedPrescription): boolean {
  const limit = 0.9 + epsilon
  if (loadOf(to) !== loadOf(from)) return loadOf(to) <= loadOf(from) * limit
  return to.reps <= from.reps * limit || (to.hold_s !== null && from.hold_s !== null && to.hold_s <= from.hold_s * limit)
}

export const decidesOncePerDirection: Law = ({ sessions }) =>
  sessions.flatMap(({ day, prescription, decisions }) => {
    const prescribed = [...new Set(prescription.filter((one) => !one.warmup).map((one) => one.direction))]
    const decided = decisions.map((one) => one.direction)
    return JSON.stringify(prescribed) === JSON.stringify(decided) ? [] : [`day ${day}: prescribed ${prescribed}, decided ${decided}`]
  })

export const givesReasonsInWords: Law = ({ sessions }) =>
  sessions.flatMap(({ day, decisions }) =>
    decisions
      .filter(({ reasons }) => reasons.length === 0 || reasons.some(({ rule, text }) => text.trim() === '' || text === rule))
      .map(({ decision, reasons }) => `day ${day}: ${decision} because of ${JSON.stringify(reasons)}`),
  )

/** Of two sides both have to be answered. */
export const neverProgressesOnMissingAnswers: Law = ({ script, sessions }) =>
  sessions.flatMap(({ day, decisions, prescription }, index) => {
    const answers = script.sessions[index]
    return decisions.flatMap(({ direction, decision }) => {
      const asked = prescription.filter((one) => !one.warmup && ladderOf(one.direction) === ladderOf(direction))
      const given = asked.flatMap((one) => Array.from({ length: one.sets }, (_, set) => answers?.sets?.[one.direction]?.[set] ?? null))
      const isMissing = given.some((set) => !isAnswered(set)) || answers?.morning?.pain == null
      return isMissing && decision === 'progress' ? [`day ${day}: ${direction} progressed on ${JSON.stringify(answers)}`] : []
    })
  })

function isAnswered(set: SetAnswer | null): boolean {
  return set !== null && set.pain != null && set.control != null && set.reserve != null
}

/** Whether each session begins locked: from an urgent or emergency alert on, until a session clears. */
function lockedAtStart({ script, sessions }: Rehearsed): readonly boolean[] {
  let isLocked = false
  return sessions.map((session, index) => {
    if (script.sessions[index]?.clear === true) isLocked = false
    const atStart = isLocked
    isLocked ||= hasFlag(session)
    return atStart
  })
}

function hasFlag({ alerts }: RehearsedSession): boolean {
  return alerts.some((alert) => alert.level !== 'routine')
}

/** The session of the alert itself is locked only if nothing was asked in it. */
export const locksOnUrgentSignsAlone: Law = (rehearsed) =>
  rehearsed.sessions.flatMap((session, index) => {
    const expected = lockedAtStart(rehearsed)[index] === true || (hasFlag(session) && session.sets.length === 0)
    return session.locked === expected ? [] : [`day ${session.day}: locked ${session.locked}, alerts ${JSON.stringify(session.alerts)}`]
  })

export const alarmsOnFlaggedWords: Law = (rehearsed) =>
  rehearsed.sessions.flatMap((session, index) => {
    const answers = rehearsed.script.sessions[index]
    const first = session.sets[0]?.direction
    const isSaid = Boolean(answers?.before?.says) || (first !== undefined && Boolean(answers?.sets?.[first]?.[0]?.says))
    const isUnheard = isSaid && lockedAtStart(rehearsed)[index] === false && !hasFlag(session)
    return isUnheard ? [`day ${session.day}: no alert on ${JSON.stringify(answers)}`] : []
  })

export const isEmptyWhileLocked: Law = ({ sessions }) =>
  sessions
    .filter(({ locked, prescription, sets, decisions }) => locked && prescription.length + sets.length + decisions.length > 0)
    .map(({ day }) => `day ${day}`)

export const entersNoRungUnapproved: Law = ({ plan, script, sessions }) => {
  const startOf = (direction: Direction): number => plan.ladders.find((ladder) => ladder.direction === direction)?.rung ?? 0
  return script.approve === false ? work(sessions).filter((one) => (one.rung ?? 0) > startOf(one.direction)).map(describePrescription) : []
}

/** Common practice, no source: far longer holds are not needed; when 10 s is easy the exercise changes. */
export const holdsTenSecondsAtMost: Law = ({ sessions }) =>
  sessions.flatMap(({ prescription }) => prescription.filter((one) => (one.hold_s ?? 0) > 10).map(describePrescription))

export const asksNoMoreThanPrescribed: Law = ({ plan, sessions }) =>
  sessions.flatMap((session) =>
    directionsIn(plan).flatMap((direction) => {
      const prescribed = workOf(session, direction)
      const sets = session.sets.filter((set) => set.direction === direction)
      if (prescribed === null) return sets.length === 0 ? [] : [`day ${session.day}: ${direction} without a prescription`]
      const harder = sets.filter((set) => compareHardness({ ...prescribed, ...set }, prescribed) > 0)
      return harder.length > 0 || sets.length > prescribed.sets ? [`day ${session.day}: ${JSON.stringify(sets)}`] : []
    }),
  )

export const keepsSidesEqual: Law = ({ sessions }) =>
  sessions.flatMap(({ day, prescription, decisions }) =>
    prescription.flatMap((one) => {
      const others = prescription.filter((other) => !other.warmup && !one.warmup && ladderOf(other.direction) === ladderOf(one.direction))
      const decided = decisions.filter((other) => ladderOf(other.direction) === ladderOf(one.direction)).map((other) => other.decision)
      const isEqual = others.every((other) => compareHardness(one, other) === 0) && new Set(decided).size <= 1
      return isEqual ? [] : [`day ${day}: ${others.map(describePrescription).join(' and ')}, decided ${decided.join(' and ')}`]
    }),
  )

/** After pain above 5 on one side no further set of either is asked. */
export const stopsBothSides: Law = ({ sessions }) =>
  sessions.flatMap(({ day, sets }) =>
    ladderIds.flatMap((ladder) => {
      const own = sets.filter((set) => ladderOf(set.direction) === ladder)
      const stop = own.findIndex(({ answer }) => answer !== null && answer.pain > 5)
      return stop >= 0 && stop < own.length - 1 ? [`day ${day}: ${JSON.stringify(own)}`] : []
    }),
  )

export const keepsSessionsShort: Law = ({ sessions }) =>
  sessions.flatMap(({ day, prescription }) => {
    const asked = prescription.filter((one) => !one.warmup)
    const sets = asked.reduce((sum, one) => sum + one.sets, 0)
    return asked.length <= 4 && sets <= 12 ? [] : [`day ${day}: ${asked.length} directions, ${sets} sets`]
  })

export const activatesFirst: Law = ({ sessions }) =>
  sessions.flatMap(({ day, prescription }) => {
    const order = prescription.filter((one) => !one.warmup).map((one) => one.direction)
    return order.indexOf('deep-flexors') > 0 ? [`day ${day}: ${order.join(', ')}`] : []
  })

/** Null is none and never 0; at most one load is set, in one unit for the whole rung; a hold is null on dynamic rungs. */
export const printsLoadsInOneUnit: Law = ({ sessions }) => {
  const units = new Map<string, string>()
  return work(sessions).flatMap((one) => {
    const loads = [one.load_kg, one.load_n, one.push]
    const unit = loads.map((load) => (load === null ? '-' : 'x')).join('')
    const rung = `${one.direction} ${one.rung}`
    const isUsual = (units.get(rung) ?? unit) === unit
    units.set(rung, unit)
    const isDynamic = one.load_kg !== null || one.load_n !== null
    const isFine = isUsual && !loads.includes(0) && unit.replaceAll('-', '').length <= 1 && isDynamic === (one.hold_s === null)
    return isFine ? [] : [describePrescription(one)]
  })
}
