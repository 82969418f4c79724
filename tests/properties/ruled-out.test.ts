// Nothing is prescribed that equipment, a restriction or a contraindication rules out. What each exercise needs and what
// rules it out is written out here once more, by hand, so that a slip in the content shows as well.
import fc, { type Arbitrary } from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { Answers } from '#src/commands/rehearse/answers-schema.ts'
import type { Plan } from '#src/domain/plan.ts'
import { entryOfRung } from '#src/rules/moves.ts'
import { chainFor, content, extensionPlan } from '../support/sample-chain.ts'
import { play } from '../support/rehearsed.ts'
import { workOf, type PrintedPrescription } from './hardness.ts'
import { parameters, seed, timeoutMs } from './runs.ts'

interface Needs {
  readonly has: (plan: Plan) => boolean
  readonly ruledOutBy: readonly string[]
}

const hasAnything = (): boolean => true

const needs: Readonly<Record<string, Needs>> = {
  'gravity-minimised-hold': { has: hasAnything, ruledOutBy: ['hands-to-head-limited', 'side-lying-limited'] },
  'lying-head-press': { has: hasAnything, ruledOutBy: ['back-lying-limited'] },
  'seated-hold-two-hands': { has: hasAnything, ruledOutBy: ['hands-to-head-limited', 'shoulder-left-limited', 'shoulder-right-limited'] },
  'seated-hold-one-hand': { has: hasAnything, ruledOutBy: ['hands-to-head-limited'] },
  'seated-wall-press': { has: hasAnything, ruledOutBy: [] },
  'seated-band': {
    has: ({ equipment }) => equipment.bands.length > 0,
    ruledOutBy: ['hands-to-head-limited', 'shoulder-left-limited', 'shoulder-right-limited'],
  },
  'seated-band-harness': {
    has: ({ equipment }) => equipment.bands.length > 0 && equipment.harnessKg !== null,
    ruledOutBy: ['no-load-through-head', ...limitingConditions()],
  },
  'seated-harness': {
    has: ({ equipment }) => equipment.harnessKg !== null && equipment.hasSupport,
    ruledOutBy: ['no-load-through-head', ...limitingConditions()],
  },
  'supported-bridge': {
    has: ({ equipment }) => equipment.hasSupport && equipment.stepCm !== null,
    ruledOutBy: ['floor-transfer-limited', 'no-load-through-head', 'glaucoma', 'retinal-disease', ...limitingConditions()],
  },
}

/** These limit a client to holds and band. */
function limitingConditions(): readonly string[] {
  return ['rheumatoid-arthritis', 'ankylosing-spondylitis', 'down-syndrome', 'connective-tissue-disease', 'osteoporosis', 'pregnancy']
}

const shown = content.ladders.get('extension')?.rungs.flatMap((rung) => rung.exercises) ?? []

const anyPlan: Arbitrary<Plan> = fc
  .record({
    restrictions: fc.subarray([...content.restrictions], { maxLength: 2 }),
    contraindications: fc.constantFrom([], [], ['glaucoma'], ['retinal-disease']),
    conditions: fc.oneof({ weight: 3, arbitrary: fc.constant([]) }, { weight: 1, arbitrary: fc.subarray([...limitingConditions()], { minLength: 1, maxLength: 1 }) }),
    platesKg: fc.array(fc.constantFrom(0.25, 0.5, 1, 2), { maxLength: 4 }),
    harnessKg: fc.constantFrom(null, 0.4, 0.8),
    bands: fc.subarray([...extensionPlan.equipment.bands]),
    hasSupport: fc.constantFrom(true, true, false),
    stepCm: fc.constantFrom(null, 30, 30),
    rung: fc.constantFrom(2, 3, 4, 5, 5, 5),
    maxRung: fc.constantFrom(2, 3, 4, 5, 5, 5, 5),
  })
  .map(({ restrictions, contraindications, conditions, rung, maxRung, ...equipment }) => ({
    ...extensionPlan,
    restrictions,
    contraindications,
    equipment,
    screening: { ...extensionPlan.screening, conditions },
    ladders: [{ direction: 'extension' as const, rung: Math.min(rung, maxRung), maxRung, shown }],
  }))
  // A plan that starts on a rung closed to its client is refused when it is read.
  .filter((plan) => entryOfRung(chainFor(plan), plan.ladders[0]?.rung ?? 0) >= 0)

const fromTheBridge: Plan = { ...extensionPlan, ladders: [{ direction: 'extension', rung: 5, maxRung: 5, shown }] }

function limitedBy(restriction: string): Plan {
  return { ...extensionPlan, restrictions: [restriction], ladders: [{ direction: 'extension', rung: 2, maxRung: 5, shown }] }
}

/** Every third day: enough sessions to leave a rung, and never more than three a week. */
const climbing: Answers = {
  sessions: Array.from({ length: 24 }, (_, index) => ({
    day: index * 3,
    before: { pain: 1 },
    sets: { extension: [1, 2, 3].map(() => ({ pain: 1, control: 'steady' as const, reserve: 5 })) },
    morning: { pain: 1 },
  })),
}

function breach(plan: Plan, one: PrintedPrescription): string | null {
  const own = needs[one.exercise]
  const listed = [...plan.restrictions, ...plan.contraindications, ...plan.screening.conditions]
  const isFine = own !== undefined && own.has(plan) && !own.ruledOutBy.some((item) => listed.includes(item))
  const isWithin = (one.rung ?? 0) <= (plan.ladders[0]?.maxRung ?? 0)
  return isFine && isWithin && isOwned(plan, one) ? null : `${one.exercise} on rung ${one.rung}, ${one.load_kg} kg, ${one.load_n} N`
}

function isOwned({ equipment }: Plan, { load_kg, load_n }: PrintedPrescription): boolean {
  const sums = equipment.platesKg.reduce<readonly number[]>((known, plate) => [...known, ...known.map((sum) => sum + plate)], [equipment.harnessKg ?? 0])
  const canHang = load_kg === null || sums.some((sum) => Math.abs(sum - load_kg) < 1e-6)
  const canPull = load_n === null || equipment.bands.some(({ points: [near, far] }) => load_n >= near.forceN && load_n <= far.forceN)
  return canHang && canPull
}

describe(`what a plan rules out (seed ${seed})`, () => {
  it('is never prescribed, and nothing is hung or stretched that the client does not own', { timeout: timeoutMs }, () => {
    const reached = new Set<string>()
    fc.assert(
      fc.property(anyPlan, (plan) => {
        const prescribed = play(plan, climbing).flatMap((session) => workOf(session, 'extension') ?? [])
        for (const one of prescribed) reached.add(one.exercise)
        expect(prescribed.flatMap((one) => breach(plan, one) ?? [])).toEqual([])
      }),
      { ...parameters(24, 0.2), examples: [[fromTheBridge], [limitedBy('hands-to-head-limited')], [limitedBy('shoulder-left-limited')]] },
    )
    // The property would hold idly if the clients never got anywhere.
    expect([...reached].toSorted()).toEqual([
      'seated-band',
      'seated-band-harness',
      'seated-harness',
      'seated-hold-one-hand',
      'seated-hold-two-hands',
      'seated-wall-press',
      'supported-bridge',
    ])
  })
})
