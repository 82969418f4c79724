// Scripts for the properties: clients who mostly do well, so that they climb, with everything else in between.
import fc, { type Arbitrary } from 'fast-check'
import type { Answers, SessionAnswers, SetAnswer } from '#src/commands/rehearse/answers-schema.ts'
import type { Plan } from '#src/domain/plan.ts'
import type { Control } from '#src/domain/set-report.ts'
import { coarsePlan, content, extensionPlan } from '../support/sample-chain.ts'

const everyExercise = content.ladders.get('extension')?.rungs.flatMap((rung) => rung.exercises) ?? []

function startingOn(rung: number, plan: Plan = extensionPlan): Plan {
  const ladders = plan.ladders.map((ladder) => ({ ...ladder, rung, shown: everyExercise }))
  return { ...plan, ladders }
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
]

export const anyPlan: Arbitrary<{ readonly name: string; readonly plan: Plan }> = fc.constantFrom(...plans)

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

const goodSession: Arbitrary<Spaced> = fc.record({
  gap: fc.integer({ min: 2, max: 3 }),
  before: fc.constant({ pain: 1 }),
  sets: fc.record({ extension: fc.array(goodSet, { minLength: 3, maxLength: 3 }) }),
  morning: fc.constant({ pain: 1 }),
})

const sets = weighted<(SetAnswer | null)[]>(
  [50, fc.array(goodSet, { minLength: 3, maxLength: 3 })],
  [47, fc.array(anySet, { minLength: 3, maxLength: 3 })],
  [3, fc.array(anySet, { maxLength: 2 })],
)
const usualMorning = weighted<{ pain: number } | null>([84, fc.record({ pain: fc.integer({ min: 0, max: 1 }) })], [12, fc.record({ pain: fc.integer({ min: 0, max: 10 }) })], [4, fc.constant(null)])
const usualBefore = weighted<{ pain: number } | null>([96, fc.record({ pain: anyPain })], [2, fc.record({ pain: fc.integer({ min: 6, max: 10 }) })], [2, fc.constant(null)])

const anySession: Arbitrary<Spaced> = fc.record({
  gap: anyGap,
  before: usualBefore,
  sets: fc.record({ extension: sets }),
  morning: usualMorning,
  clear: weighted<boolean>([80, fc.constant(false)], [20, fc.constant(true)]),
})

const flaggedSession: Arbitrary<Spaced> = fc.tuple(anySession, flaggedWords, fc.boolean()).map(([session, says, isBefore]) => {
  if (isBefore) return { ...session, before: { pain: session.before?.pain ?? 1, says } }
  const [, ...others] = session.sets?.extension ?? []
  return { ...session, sets: { extension: [{ pain: 1, control: 'steady', reserve: 3, says }, ...others] } }
})

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
export function anyScript(lengths: Lengths): Arbitrary<Answers> {
  return scriptOf(lengths, anySession)
}

/** The same with red flags in words here and there. */
export function anyFlaggedScript(lengths: Lengths): Arbitrary<Answers> {
  return scriptOf(lengths, weighted<Spaced>([92, anySession], [8, flaggedSession]))
}

function scriptOf({ leastGood = 0, mostGood, most }: Lengths, session: Arbitrary<Spaced>): Arbitrary<Answers> {
  return fc
    .tuple(
      fc.array(goodSession, { minLength: leastGood, maxLength: mostGood }),
      fc.array(session, { minLength: 3, maxLength: most }),
      weighted<boolean>([80, fc.constant(true)], [20, fc.constant(false)]),
    )
    .map(([good, any, approve]) => ({ sessions: onDays([...good, ...any]), approve }))
}
