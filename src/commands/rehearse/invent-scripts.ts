// Invented clients of several kinds, reproducible from a seed: what a plan does before it is prescribed.
import { xoroshiro128plus } from 'pure-rand/generator/xoroshiro128plus'
import { uniformInt } from 'pure-rand/distribution/uniformInt'
import { weekdays, type Plan } from '#src/domain/plan.ts'
import { controls } from '#src/domain/set-report.ts'
import type { Answers, SessionAnswers, SetAnswer } from './answers-schema.ts'

export const clientKinds = ['steady', 'sore', 'forgetful', 'overeager', 'flaring', 'symptom'] as const
export type ClientKind = (typeof clientKinds)[number]

export interface Invented {
  readonly client: { readonly number: number; readonly kind: ClientKind }
  readonly script: Answers
}

export interface Inventing {
  readonly count: number
  readonly seed: number
  readonly weeks: number
}

/** How a kind of client tends to answer; chances are of 100. */
interface Tendency {
  readonly extraPain: number
  readonly shaky: number
  readonly lost: number
  readonly leftOut: number
  readonly missed: number
  readonly badMorning: number
  readonly reserve: readonly [least: number, most: number]
}

const tendencies: Record<ClientKind, Tendency> = {
  steady: { extraPain: 5, shaky: 5, lost: 0, leftOut: 1, missed: 3, badMorning: 2, reserve: [2, 4] },
  sore: { extraPain: 45, shaky: 15, lost: 4, leftOut: 5, missed: 5, badMorning: 20, reserve: [1, 3] },
  forgetful: { extraPain: 8, shaky: 8, lost: 2, leftOut: 15, missed: 35, badMorning: 5, reserve: [1, 4] },
  overeager: { extraPain: 15, shaky: 20, lost: 6, leftOut: 0, missed: 0, badMorning: 10, reserve: [2, 6] },
  flaring: { extraPain: 10, shaky: 10, lost: 3, leftOut: 3, missed: 5, badMorning: 8, reserve: [2, 4] },
  symptom: { extraPain: 8, shaky: 8, lost: 2, leftOut: 2, missed: 5, badMorning: 5, reserve: [2, 4] },
}

const mostPain = 10
const flareDays = 10

type Roll = (least: number, most: number) => number

/** Streamed, so that a thousand clients need no more memory than one. */
export function* inventScripts(plan: Plan, { count, seed, weeks }: Inventing): Generator<Invented> {
  for (let number = 1; number <= count; number += 1) {
    const random = xoroshiro128plus(seed * 1_000_003 + number)
    const roll: Roll = (least, most) => uniformInt(random, least, most)
    const kind = clientKinds[roll(0, clientKinds.length - 1)] ?? 'steady'
    yield { client: { number, kind }, script: inventScript(plan, kind, weeks, roll) }
  }
}

function inventScript(plan: Plan, kind: ClientKind, weeks: number, roll: Roll): Answers {
  const tendency = tendencies[kind]
  const flareAt = roll(0, Math.max(0, weeks * 7 - flareDays))
  const symptomAt = kind === 'symptom' ? roll(0, Math.max(0, weeks * 7 - 1)) : null
  const days = Array.from({ length: weeks * 7 }, (_, day) => day).filter((day) => plan.schedule.days.includes(weekdays[day % 7] ?? 'mon'))
  let hasSymptom = false
  const sessions = days.flatMap((day): SessionAnswers[] => {
    if (roll(1, 100) <= tendency.missed) return []
    const isFlaring = kind === 'flaring' && day >= flareAt && day < flareAt + flareDays
    const says = symptomAt !== null && day >= symptomAt && !hasSymptom ? 'my left hand has gone numb and tingly' : null
    const isAfter = hasSymptom
    hasSymptom ||= says !== null
    return [inventSession(plan, tendency, day, isFlaring, says, isAfter, roll)]
  })
  return { sessions, approve: true }
}

function inventSession(
  plan: Plan,
  tendency: Tendency,
  day: number,
  isFlaring: boolean,
  says: string | null,
  isAfterSymptom: boolean,
  roll: Roll,
): SessionAnswers {
  const pain = (): number => {
    const extra = isFlaring ? roll(2, 6) : roll(1, 100) <= tendency.extraPain ? roll(1, 4) : 0
    return Math.min(mostPain, plan.usualPain + extra)
  }
  const set = (): SetAnswer | null => {
    if (roll(1, 100) <= tendency.leftOut) return null
    const steadiness = roll(1, 100)
    const control = steadiness <= tendency.lost ? controls[2] : steadiness <= tendency.lost + tendency.shaky ? controls[1] : controls[0]
    return { pain: pain(), control, reserve: roll(...tendency.reserve) }
  }
  const isBadMorning = isFlaring || roll(1, 100) <= tendency.badMorning
  return {
    day,
    before: { pain: pain(), ...(says === null ? {} : { says }) },
    sets: Object.fromEntries(plan.ladders.map(({ direction }) => [direction, [set(), set(), set()]])),
    morning: roll(1, 100) <= tendency.leftOut ? null : { pain: Math.min(mostPain, plan.usualPain + (isBadMorning ? roll(2, 4) : roll(0, 1))) },
    ...(isAfterSymptom ? { clear: true } : {}),
  }
}
