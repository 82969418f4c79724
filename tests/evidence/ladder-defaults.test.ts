// common practice, no source: rules of thumb among clinicians who strengthen necks, and the ladder defaults that are our
// choice for a clinician to review. A therapist may change them; the shipped content has to start from them.
import { describe, expect, it } from 'vitest'
import type { Chain } from '#src/domain/chain.ts'
import type { Exercise, HoldStep } from '#src/domain/exercise.ts'
import type { Band, Equipment } from '#src/domain/plan.ts'
import { buildChain } from '#src/rules/build-chain.ts'
import { extensionLadder, novice, shippedExercise } from './shipped.ts'

const noEquipment: Equipment = { platesKg: [], harnessKg: null, bands: [], hasSupport: true, stepCm: 30 }

function holdsOf(exercise: Exercise): readonly HoldStep[] {
  return exercise.work.kind === 'holds' ? [...exercise.work.below, exercise.work.entry, ...exercise.work.above] : []
}

function entryOf(exercise: Exercise): HoldStep | null {
  return exercise.work.kind === 'holds' ? exercise.work.entry : null
}

function chainOf(exercise: Exercise, equipment: Equipment, maximumN: number | null): Chain {
  return buildChain({ direction: 'extension', rungs: [{ rung: 1, exercise }], equipment, protocol: novice, maximumN, startRung: 1 })
}

describe('the extension ladder (common practice, no source)', () => {
  it('goes from holds to band, harness and bridge', () => {
    expect(extensionLadder.rungs).toEqual([
      { rung: 1, exercises: ['gravity-minimised-hold'] },
      { rung: 2, exercises: ['seated-hold-two-hands', 'seated-hold-one-hand'] },
      { rung: 3, exercises: ['seated-band'] },
      { rung: 4, exercises: ['seated-harness'] },
      { rung: 5, exercises: ['supported-bridge'] },
    ])
  })

  it('warms up first, the deep flexors among it', () => {
    expect(extensionLadder.warmUp.map((step) => step.exercise)).toContain('deep-flexor-activation')
  })

  it('never holds longer than ten seconds', () => {
    const holds = extensionLadder.rungs.flatMap((rung) => rung.exercises).map(shippedExercise).map(holdsOf)
    expect(holds.map((steps) => Math.max(0, ...steps.map((step) => step.holdSeconds)))).toEqual([10, 10, 10, 0, 0, 5])
  })
})

describe('self-resisted holds (common practice, no source)', () => {
  const seated = ['seated-hold-two-hands', 'seated-hold-one-hand']
  it.each(seated)('%s start at 3 × 5 × 5 s and end at 10 s, the push first 3 and then 5', (id) => {
    const exercise = shippedExercise(id)
    const steps = holdsOf(exercise).filter((step) => step.holdSeconds >= 5)
    expect([exercise.sets, entryOf(exercise)]).toEqual([3, { reps: 5, holdSeconds: 5, push: 3 }])
    expect(steps).toEqual([3, 5].flatMap((push) => [5, 6, 8, 10].map((holdSeconds) => ({ reps: 5, holdSeconds, push }))))
  })

  it('take two hands, and one only where a shoulder is limited', () => {
    expect(['seated-hold-two-hands', 'seated-hold-one-hand'].map((id) => shippedExercise(id).chosenFor)).toEqual([
      [],
      ['shoulder-left-limited', 'shoulder-right-limited'],
    ])
  })

  it('with gravity minimised are the therapist\'s to give and to leave, from 3 × 5 × 3 s', () => {
    const { sets, isTherapistOnly, needsApprovalToLeave, ...exercise } = shippedExercise('gravity-minimised-hold')
    expect([sets, exercise.work.kind === 'holds' && exercise.work.entry]).toEqual([3, { reps: 5, holdSeconds: 3, push: null }])
    expect([isTherapistOnly, needsApprovalToLeave]).toEqual([true, true])
  })
})

describe('the band (common practice, no source)', () => {
  const exercise = shippedExercise('seated-band')
  // One newton a centimetre from 5 N to 60 N.
  const bands = [{ id: 'measured', points: [{ stretchCm: 5, forceN: 5 }, { stretchCm: 60, forceN: 60 }] }] as const

  it('starts at 3 × 8 with the most force that is not above 15 % of the maximum, and ends at 20 % or two steps on', () => {
    const { places } = chainOf(exercise, { ...noEquipment, bands }, 120)
    const entry = places.find((place) => place.isEntry)
    const forces = [...new Set(places.map((place) => (place.dose.load.kind === 'force' ? place.dose.load.newtons : 0)))]
    const load = { kind: 'force', newtons: 18, band: 'measured', stretchCm: 18 }
    expect(entry?.dose).toEqual({ sets: 3, reps: 8, holdSeconds: null, load })
    expect(forces).toEqual([18, 19, 20, 22, 24])
    expect(places.at(-1)).toMatchObject({ standing: 'again', dose: { sets: 3, reps: 12 } })
  })

  it('ends two force steps above the entry where nothing was measured', () => {
    const longer: Band = { id: 'longer', points: [{ stretchCm: 20, forceN: 20 }, { stretchCm: 60, forceN: 60 }] }
    const { places } = chainOf(exercise, { ...noEquipment, bands: [longer] }, null)
    const forces = [...new Set(places.map((place) => (place.dose.load.kind === 'force' ? place.dose.load.newtons : 0)))]
    expect(forces).toEqual([20, 22, 24])
  })
})

describe('the harness (common practice, no source)', () => {
  const exercise = shippedExercise('seated-harness')
  const equipment: Equipment = { ...noEquipment, harnessKg: 0.4, platesKg: [0.25, 0.25, 0.5, 1, 2.5, 5, 10] }
  const kilogramsOf = (chain: Chain): readonly number[] =>
    chain.places.map((place) => (place.dose.load.kind === 'mass' ? place.dose.load.kilograms : 0))

  it('starts empty at 3 × 8 and stays below 45 % of the maximum', () => {
    // 45 % of 100 N hangs as 4.589 kg.
    const chain = chainOf(exercise, equipment, 100)
    const entry = chain.places.find((place) => place.isEntry)
    expect(entry?.dose).toEqual({ sets: 3, reps: 8, holdSeconds: null, load: { kind: 'mass', kilograms: 0.4, plates: [] } })
    expect(Math.max(...kilogramsOf(chain))).toBe(4.4)
  })

  it('never hangs more than 10 kg by itself', () => {
    expect(Math.max(...kilogramsOf(chainOf(exercise, equipment, 1000)))).toBe(9.9)
  })

  it('is not begun where the empty one weighs more than 1 kg', () => {
    const weights = [1, 1.05].map((harnessKg) => chainOf(exercise, { ...equipment, harnessKg }, 100).places.length > 0)
    expect(weights).toEqual([true, false])
  })

  it('asks for approval above a step of 50 %, the first half kilogram excepted', () => {
    // 0.4 → 0.9 kg is 125 % but the first half kilogram; 0.9 → 2.9 kg is 222 %; 2.9 → 3.4 kg is 17 %.
    const { places } = chainOf(exercise, { ...equipment, platesKg: [0.5, 2.5] }, 1000)
    const asked = places.filter((place) => place.needsApproval).map((place) => place.dose)
    expect([...new Set(kilogramsOf({ direction: 'extension', places }))]).toEqual([0.4, 0.9, 2.9, 3.4])
    expect(asked).toEqual([{ sets: 3, reps: 8, holdSeconds: null, load: { kind: 'mass', kilograms: 2.9, plates: [2.5] } }])
  })

  it('needs approval to enter, and a step and support at hand', () => {
    expect([exercise.needsApprovalToEnter, exercise.equipment]).toEqual([true, ['harness', 'support']])
  })
})

describe('the bridge (common practice, no source; no published dose is known)', () => {
  const exercise = shippedExercise('supported-bridge')

  it('goes from 3 × 3 × 3 s to 8 × 5 s and needs approval', () => {
    expect([exercise.sets, entryOf(exercise), holdsOf(exercise).at(-1), exercise.needsApprovalToEnter]).toEqual([
      3,
      { reps: 3, holdSeconds: 3, push: null },
      { reps: 8, holdSeconds: 5, push: null },
      true,
    ])
  })
})

describe('spacing and stay (common practice, no source)', () => {
  it.each([
    ['seated-band', 20, null],
    ['seated-harness', 40, 3],
    ['supported-bridge', 40, 3],
  ])('%s rests %i hours', (id, hours, sessionsPerWeek) => {
    expect(shippedExercise(id).spacing).toEqual({ hours, sessionsPerWeek })
  })

  it('a loaded rung is left after six sessions and fourteen days', () => {
    expect(novice.loadedRung).toEqual({ sessions: 6, days: 14 })
  })

  it('silence is asked about after five minutes and pauses after ten', () => {
    expect(novice.silence).toEqual({ askAfterMinutes: 5, pauseAfterMinutes: 10 })
  })
})
