import { describe, expect, it } from 'vitest'
import type { Plan } from '#src/domain/plan.ts'
import { chooseExercises } from '#src/rules/choose-exercises.ts'
import { content, extensionPlan } from '../support/sample-chain.ts'

const ladder = content.ladders.get('extension') ?? { id: 'extension' as const, muscles: [], rungs: [], warmUp: [] }
const { equipment, screening } = extensionPlan

const withoutSeatedBand = new Map([...content.exercises].filter(([id]) => id !== 'seated-band'))

/** The chosen exercises as `rung exercise`. */
function chosen(changes: Partial<Plan>, exercises = content.exercises): readonly string[] {
  const plan = { ...extensionPlan, ...changes }
  return chooseExercises(plan, ladder, exercises, content.triage.gates).map(({ rung, exercise }) => `${rung} ${exercise.id}`)
}

const all = ['1 gravity-minimised-hold', '2 seated-hold-two-hands', '3 seated-band', '4 seated-harness', '5 supported-bridge']
const oneHand = ['1 lying-head-press', '2 seated-hold-one-hand', '3 seated-band-harness', '4 seated-harness', '5 supported-bridge']
const noHand = ['1 lying-head-press', '2 seated-wall-press', '3 seated-band-harness', '4 seated-harness', '5 supported-bridge']

function without(...rungs: readonly number[]): readonly string[] {
  return all.filter((line) => !rungs.includes(Number(line[0])))
}

describe('the exercises of a plan', () => {
  it.each<readonly [string, Partial<Plan>, readonly string[]]>([
    ['are one a rung with everything owned', {}, all],
    ['leave out the band without one', { equipment: { ...equipment, bands: [] } }, without(3)],
    ['leave out the harness without one', { equipment: { ...equipment, harnessKg: null } }, without(4)],
    ['leave out harness and bridge without a support', { equipment: { ...equipment, hasSupport: false } }, without(4, 5)],
    ['leave out the bridge without a step', { equipment: { ...equipment, stepCm: null } }, without(5)],
    ['are holds with no equipment at all', { equipment: { platesKg: [], harnessKg: null, bands: [], hasSupport: false, stepCm: null } }, without(3, 4, 5)],
    ['take one hand where the left shoulder is limited', { restrictions: ['shoulder-left-limited'] }, oneHand],
    ['take one hand where the right shoulder is limited', { restrictions: ['shoulder-right-limited'] }, oneHand],
    ['need no hand where none comes to the head', { restrictions: ['hands-to-head-limited'] }, noHand],
    ['leave out the band where no hand comes to the head and no harness is owned', { restrictions: ['hands-to-head-limited'], equipment: { ...equipment, harnessKg: null } }, noHand.filter((line) => !/^[34]/.test(line))],
    ['leave out the bridge where the floor is out of reach', { restrictions: ['floor-transfer-limited'] }, without(5)],
    ['leave out harness and bridge where no load may go through the head', { restrictions: ['no-load-through-head'] }, without(4, 5)],
    ['leave out the bridge with glaucoma', { contraindications: ['glaucoma'] }, without(5)],
    ['leave out the bridge with retinal disease found by the screening', { screening: { ...screening, conditions: ['retinal-disease'] } }, without(5)],
    ['are holds and band for a limited client', { screening: { ...screening, age: 65 } }, without(4, 5)],
    ['are all of them where the therapist overrides with a reason', { screening: { ...screening, age: 65, overrideReason: 'strong and trained' } }, all],
    ['still leave out the bridge with glaucoma where the therapist overrides', { screening: { ...screening, age: 65, conditions: ['glaucoma'], overrideReason: 'strong' } }, without(5)],
    ['end at the highest rung of the plan', { ladders: [{ direction: 'extension', rung: 2, maxRung: 3, shown: [] }] }, without(4, 5)],
    ['are none without a ladder in the plan', { ladders: [] }, []],
  ])('%s', (_, changes, expected) => {
    expect(chosen(changes)).toEqual(expected)
  })

  it('are never one meant for a restriction that the client does not have, even where the usual one is missing', () => {
    expect(chosen({}, withoutSeatedBand)).toEqual(without(3))
    expect(chosen({ restrictions: ['hands-to-head-limited'] }, withoutSeatedBand)).toEqual(noHand)
  })
})
