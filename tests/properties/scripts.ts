// Scripts for the properties: clients who mostly do well, so that they climb, with everything else in between.
import fc, { type Arbitrary } from 'fast-check'
import type { Answers, SessionAnswers, SetAnswer } from '#src/commands/rehearse/answers-schema.ts'
import type { Direction } from '#src/domain/direction.ts'
import type { Plan } from '#src/domain/plan.ts'
import type { Control } from '#src/domain/set-report.ts'
import { allDirectionsPlan, coarsePlan, content, extensionPlan } from '../support/sample-chain.ts'

const everyExercise = [...content.ladders.values()].flatMap((ladder) => ladder.rungs.flatMap((rung) => rung.exercises))

function startingOn(rung: number, plan: Plan = extensionPlan): Plan {
  const ladders = plan.ladders.map((ladder) => ({ ...ladder, rung, shown: everyExercise }))
  return { ...plan, ladders }
}

function only(...directions: readonly Direction[]): Plan {
  return { ...allDirectionsPlan, ladders: allDirectionsPlan.ladders.filter((ladder) => directions.includes(ladder.direction)) }
}

const unmeasured: Plan = { ...extensionPlan, measurements: [] }
const fine: Plan = { ...extensionPlan, equipment: { ...extensionPlan.equipment, platesKg: [0.05, 0.1, 0.25, 0.5, 1, 2] } }

/** Starts on every rung, with measured and unmeasured clients, fine and coarse plates, and several usual pains. */
export const plans: readonly { readonly name: string; readonly plan: Plan }[] = [
  { name: 'as shipped', plan: extensionPlan },
  { name: 'as shipped, usual pain 4', plan: { ...extensionPlan, usualPain: 4 } },
  { name: 'as shipped, usual pain 0', plan: { ...extensionPlan, usualPain: 0 } },
  { name: 'from the lowest rung', plan: startingOn(1) },
  { name: 'from the band', plan: startingOn(3) },
  { name: 'from the band, unmeasured', plan: startingOn(3, unmeasured) },
  { name: 'from the harness', plan: startingOn(4) },
  { name: 'from the harness, coarse plates', plan: startingOn(4, coarsePlan) },
  { name: 'from the harness, fine plates, usual pain 3', plan: { ...startingOn(4, fine), usualPain: 3 } },
  { name: 'from the bridge', plan: startingOn(5) },
  { name: 'all directions', plan: allDirectionsPlan },
  { name: 'all directions from the band', plan: startingOn(3, allDirectionsPlan) },
  { name: 'both sides', plan: only('lateral-flexion-left', 'lateral-flexion-right') },
  { name: 'four directions', plan: only('extension', 'flexion', 'rotation-left', 'rotation-right') },
]

export interface Case {
  readonly name: string
  readonly plan: Plan
  readonly script: Answers
}

/** A plan, and a script that answers for its directions. */
export function anyCase(scriptFor: (directions: readonly Direction[]) => Arbitrary<Answers>): Arbitrary<Case> {
  return fc.constantFrom(...plans).chain(({ name, plan }) => {
    const directions = plan.ladders.map(({ direction }) => direction)
    return scriptFor(directions).map((script) => ({ name, plan, script }))
  })
}

function weighted<T>(...choices: readonly (readonly [number, Arbitrary<T>])[]): Arbitrary<T> {
  return fc.oneof(...choices.map(([weight, arbitrary]) => ({ weight, arbitrary })))
}

const anyPain = weighted<number>([80, fc.integer({ min: 0, max: 2 })], [12, fc.integer({ min: 3, max: 5 })], [6, fc.integer({ min: 6, max: 7 })], [2, fc.integer({ min: 8, max: 10 })])
const anyControl = weighted<Control>([85, fc.constant('steady')], [9, fc.constant('shaky')], [6, fc.constant('lost')])
const anyReserve = weighted<number>([88, fc.integer({ min: 2, max: 6 })], [12, fc.integer({ min: 0, max: 1 })])

const goodSet: Arbitrary<SetAnswer> = fc.record({ pain: fc.integer({ min: 0, max: 2 }), control: fc.constant('steady' as const), reserve: fc.integer({ min: 4, max: 6 }) })
const anyWholeSet: Arbitrary<SetAnswer> = fc.record(
  { pain: anyPain, control: anyControl, reserve: anyReserve, finished: weighted<boolean>([94, fc.constant(true)], [6, fc.constant(false)]) },
)
const partialSet: Arbitrary<SetAnswer> = fc.record({ pain: anyPain, control: anyControl }, { requiredKeys: [] })
const anySet = weighted<SetAnswer | null>([90, anyWholeSet], [6, fc.constant(null)], [4, partialSet])

/** One urgent sign, one emergency. */
const flaggedWords = fc.constantFrom('my left hand has gone numb and tingly', 'half of my face has gone numb')

const anyGap = weighted<number>([95, fc.integer({ min: 1, max: 5 })], [5, fc.integer({ min: 8, max: 40 })])

type Without<T, K extends PropertyKey> = Omit<T, K> & { readonly gap: number }
type Spaced = Without<SessionAnswers, 'day'>

/** The same kind of sets for every direction. */
function setsOf(directions: readonly Direction[], sets: Arbitrary<(SetAnswer | null)[]>): Arbitrary<NonNullable<SessionAnswers['sets']>> {
  return fc.tuple(...directions.map(() => sets)).map((all) => Object.fromEntries(directions.map((direction, index) => [direction, all[index] ?? []])))
}

function goodSession(directions: readonly Direction[]): Arbitrary<Spaced> {
  return fc.record({
    gap: fc.integer({ min: 2, max: 3 }),
    before: fc.constant({ pain: 1 }),
    sets: setsOf(directions, fc.array(goodSet, { minLength: 3, maxLength: 3 })),
    morning: fc.constant({ pain: 1 }),
  })
}

const sets = weighted<(SetAnswer | null)[]>(
  [50, fc.array(goodSet, { minLength: 3, maxLength: 3 })],
  [47, fc.array(anySet, { minLength: 3, maxLength: 3 })],
  [3, fc.array(anySet, { maxLength: 2 })],
)
const usualMorning = weighted<{ pain: number } | null>([84, fc.record({ pain: fc.integer({ min: 0, max: 1 }) })], [12, fc.record({ pain: fc.integer({ min: 0, max: 10 }) })], [4, fc.constant(null)])
const usualBefore = weighted<{ pain: number } | null>([96, fc.record({ pain: anyPain })], [2, fc.record({ pain: fc.integer({ min: 6, max: 10 }) })], [2, fc.constant(null)])

function anySession(directions: readonly Direction[]): Arbitrary<Spaced> {
  return fc.record({
    gap: anyGap,
    before: usualBefore,
    sets: setsOf(directions, sets),
    morning: usualMorning,
    clear: weighted<boolean>([80, fc.constant(false)], [20, fc.constant(true)]),
  })
}

/** Words before the session, or with the first set of every direction: whichever is asked is heard. */
function flaggedSession(directions: readonly Direction[]): Arbitrary<Spaced> {
  return fc.tuple(anySession(directions), flaggedWords, fc.boolean()).map(([session, says, isBefore]) => {
    if (isBefore) return { ...session, before: { pain: session.before?.pain ?? 1, says } }
    const flagged = directions.map((direction) => {
      const [, ...others] = session.sets?.[direction] ?? []
      return [direction, [{ pain: 1, control: 'steady' as const, reserve: 3, says }, ...others]] as const
    })
    return { ...session, sets: Object.fromEntries(flagged) }
  })
}

function onDays(sessions: readonly Spaced[]): SessionAnswers[] {
  let day = -1
  return sessions.map(({ gap, ...session }) => {
    day += gap
    return { ...session, day }
  })
}

interface Lengths {
  readonly leastGood?: number
  readonly mostGood: number
  readonly most: number
}

/** Some good sessions first, then anything; without words that raise a flag. */
export function anyScript(lengths: Lengths): (directions: readonly Direction[]) => Arbitrary<Answers> {
  return (directions) => scriptOf(lengths, goodSession(directions), anySession(directions))
}

/** The same with red flags in words here and there. */
export function anyFlaggedScript(lengths: Lengths): (directions: readonly Direction[]) => Arbitrary<Answers> {
  return (directions) => scriptOf(lengths, goodSession(directions), weighted<Spaced>([92, anySession(directions)], [8, flaggedSession(directions)]))
}

function scriptOf({ leastGood = 0, mostGood, most }: Lengths, good: Arbitrary<Spaced>, any: Arbitrary<Spaced>): Arbitrary<Answers> {
  return fc
    .tuple(
      fc.array(good, { minLength: leastGood, maxLength: mostGood }),
      fc.array(any, { minLength: 3, maxLength: most }),
      weighted<boolean>([80, fc.constant(true)], [20, fc.constant(false)]),
    )
    .map(([first, then, approve]) => ({ sessions: onDays([...first, ...then]), approve }))
}
