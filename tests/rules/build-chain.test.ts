// The ladder defaults are our choice, for a clinician to review; holds before band, harness and bridge is common practice,
// no source. The loads of the plan to try are worked out by hand in the comments.
import { describe, expect, it } from 'vitest'
import type { Chain } from '#src/domain/chain.ts'
import { loadMagnitude } from '#src/domain/dose.ts'
import { brandAs, type ExerciseId } from '#src/domain/identifier.ts'
import type { Plan } from '#src/domain/plan.ts'
import { buildChain, type LoadFacts } from '#src/rules/build-chain.ts'
import { startOn } from '#src/rules/moves.ts'
import { coarsePlan, content, extensionPlan, nameOf, novice } from '../support/sample-chain.ts'
import { assumed, extensionChain, headless, maximumOf } from './load-facts.ts'
import { writeChain } from './write-chain.ts'

const { equipment } = extensionPlan

function withEquipment(changes: Partial<Plan['equipment']>, plan = extensionPlan): Plan {
  return { ...plan, equipment: { ...equipment, ...changes } }
}

function measuring(force: number, plan = extensionPlan): Plan {
  return { ...plan, measurements: [{ direction: 'extension', force, unit: 'N', leverCm: null, on: null }] }
}

function startingOn(rung: number, plan: Plan): Plan {
  return { ...plan, ladders: plan.ladders.map((ladder) => ({ ...ladder, rung })) }
}

function isEntryOfHarnessTooHigh(plan: Plan, facts?: Parameters<typeof extensionChain>[1]): boolean | undefined {
  return extensionChain(plan, facts).places.find((place) => place.rung === 4 && place.isEntry)?.needsApproval
}

/** The lines of one rung, without its number. */
function rungOf(plan: Plan, rung: number): readonly string[] {
  const head = `rung ${rung}, `
  return writeChain(extensionChain(plan)).filter((line) => line.startsWith(head)).map((line) => line.slice(head.length))
}

function rungsOf(plan: Plan): readonly number[] {
  return [...new Set(extensionChain(plan).places.map((place) => place.rung))]
}

describe('the chain of the plan to try', () => {
  it('reads from the lightest hold to the longest bridge', () => {
    // Measured maximum 120 N: band from at most 18 N (15 %) to at least 24 N (20 %), two steps on. 45 % of 19.2 Nm is 8.64 Nm;
    // tilted by 45 degrees the head of 4.858 kg takes 4.04 Nm of it, which leaves 2.93 kg for the harness. Medium band: 14 N at 10 cm, 0.56 N a centimetre; 17.92 N at 17 cm is the last not
    // above 18. Plates in steps of 0.25 kg: 62 %, 38 % and 28 % ask for two places beyond, up to 10.4 % for one.
    expect(writeChain(extensionChain(extensionPlan))).toEqual([
      'rung 1, no load: 3 × 5×1s 5×2s [5×3s] 5×4s 5×5s 5×6s 5×8s 5×10s 5×10s',
      'rung 2, push 3: 3 × 5×2s 5×3s 5×4s [5×5s] 5×6s 5×8s 5×10s 5×10s',
      'rung 2, push 5: 3 × 5×5s 5×6s 5×8s 5×10s 5×10s',
      'rung 3, 17.9 N, medium at 17 cm: 3 × 4 5 6 [8] 10 12 12',
      'rung 3, 19.6 N, medium at 20 cm: 3 × 8 10 12 12',
      'rung 3, 21.3 N, medium at 23 cm: 3 × 8 10 12 12',
      'rung 3, 23 N, medium at 26 cm: 3 × 8 10 12 12',
      'rung 3, 25.2 N, medium at 30 cm: 3 × 8 10 12 12',
      'rung 4, 0.4 kg: 3 × 4 5 6 [8] 10 12 14 16 16',
      'rung 4, 0.65 kg: 3 × 8 10 12 14 16 16',
      'rung 4, 0.9 kg: 3 × 8 10 12 14 16 16',
      'rung 4, 1.15 kg: 3 × 8 10 12 14 14',
      'rung 4, 1.4 kg: 3 × 8 10 12 14 14',
      'rung 4, 1.65 kg: 3 × 8 10 12 14 14',
      'rung 4, 1.9 kg: 3 × 8 10 12 14 14',
      'rung 4, 2.15 kg: 3 × 8 10 12 14 14',
      'rung 4, 2.4 kg: 3 × 8 10 12 14 14',
      'rung 4, 2.65 kg: 3 × 8 10 12 12',
      'rung 4, 2.9 kg: 3 × 8 10 12 12',
      'rung 5, no load: 3 × 2×2s 3×2s [3×3s] 4×3s 5×3s 5×4s 6×4s 6×5s 7×5s 8×5s 8×5s',
    ])
  })
})

describe('the band', () => {
  it('without a measured maximum starts at the least force and ends two steps on', () => {
    expect(rungOf({ ...extensionPlan, measurements: [] }, 3)).toEqual([
      '8 N, light at 10 cm: 3 × 4 5 6 [8] 10 12 12',
      '8.6 N, light at 12 cm: 3 × 8 10 12 12',
      '9.3 N, light at 14 cm: 3 × 8 10 12 12',
    ])
  })

  it('that is above 15 % of the maximum at its least needs approval to be entered', () => {
    // 15 % of 50 N is 7.5 N, below the least force of 8 N; 20 % is 10 N. A body of 40 kg leaves room under the target.
    const slight = { ...measuring(50), assumptions: { bodyKg: 40 } }
    expect(rungOf(slight, 3)).toEqual([
      '8 N, light at 10 cm: 3 × 4 5 6 [8]! 10 12 12',
      '8.6 N, light at 12 cm: 3 × 8 10 12 12',
      '9.3 N, light at 14 cm: 3 × 8 10 12 12',
      '10.2 N, light at 17 cm: 3 × 8 10 12 12',
    ])
  })

  it('that with the head is above 45 % of the maximum at its least closes its rung and all above', () => {
    // Tilted by 30 degrees the head takes 2.858 Nm, the least of 8 N 1.28 Nm: 4.138 Nm, which is 45 % of 57.48 N at 16 cm.
    expect([57, 58].map((force) => rungsOf(measuring(force)))).toEqual([[1, 2], [1, 2, 3]])
  })

  it('is entered no higher than the target, where that is below 15 %', () => {
    // 15 % of 58 N is 8.7 N; the target leaves 8.235 N.
    expect(rungOf(measuring(58), 3)).toEqual(['8 N, light at 10 cm: 3 × 4 5 6 [8] 10 12 12'])
  })

  it('closed by the maximum does not take the start away that the therapist chose above it', () => {
    expect(rungsOf(startingOn(5, measuring(50)))).toEqual([1, 2, 5])
  })

  it('is entered as before after a better retest, and left later', () => {
    // 20 % of 160 N is 32 N.
    const measurements = [...measuring(120).measurements, ...measuring(160).measurements]
    expect(rungOf({ ...extensionPlan, measurements }, 3)).toEqual([
      '17.9 N, medium at 17 cm: 3 × 4 5 6 [8] 10 12 12',
      '19.6 N, medium at 20 cm: 3 × 8 10 12 12',
      '21.3 N, medium at 23 cm: 3 × 8 10 12 12',
      '23 N, medium at 26 cm: 3 × 8 10 12 12',
      '25.2 N, medium at 30 cm: 3 × 8 10 12 12',
      '27.4 N, medium at 34 cm: 3 × 8 10 12 12',
      '29.7 N, medium at 38 cm: 3 × 8 10 12 12',
      '32.5 N, medium at 43 cm: 3 × 8 10 12 12',
    ])
  })

  it('too weak to reach 20 % of the maximum is the last rung that the rules know', () => {
    const weak = withEquipment({ bands: [{ id: 'weak', points: [{ stretchCm: 10, forceN: 8 }, { stretchCm: 30, forceN: 12 }] }] })
    expect(rungsOf(weak)).toEqual([1, 2, 3])
  })

  it('too weak to reach it is the last one as well for a client who starts on it', () => {
    const weak = withEquipment({ bands: [{ id: 'weak', points: [{ stretchCm: 10, forceN: 8 }, { stretchCm: 30, forceN: 12 }] }] })
    expect(rungsOf(startingOn(3, weak))).toEqual([1, 2, 3])
  })

  it('too weak to reach it does not cut off a client who starts above', () => {
    const weak = withEquipment({ bands: [{ id: 'weak', points: [{ stretchCm: 10, forceN: 8 }, { stretchCm: 30, forceN: 12 }] }] })
    expect(rungsOf(startingOn(4, weak))).toEqual([1, 2, 3, 4, 5])
  })
})

describe('the harness', () => {
  it('with coarse plates asks for approval and repetitions beyond the range', () => {
    // 45 % of 32 Nm less the head leaves 6.60 kg.
    expect(rungOf(measuring(200, coarsePlan), 4)).toEqual([
      '0.4 kg: 3 × 4 5 6 [8] 10 12 14 16 16',
      '1.4 kg: 3 × 8! 10 12 14 16 16',
      '2.4 kg: 3 × 8! 10 12 14 16 16',
      '3.4 kg: 3 × 8 10 12 14 16 16',
      '4.4 kg: 3 × 8 10 12 14 14',
      '5.4 kg: 3 × 8 10 12 14 14',
      '6.4 kg: 3 × 8 10 12 12',
    ])
  })

  it('is entered up to a kilogram, and left out above', () => {
    expect([1, 1.01].map((harnessKg) => rungsOf(withEquipment({ harnessKg })))).toEqual([
      [1, 2, 3, 4, 5],
      [1, 2, 3, 5],
    ])
  })

  it('heavier on the neck than the last of the band needs approval for that as well', () => {
    // With 80 N the band ends at 16.3 N: 2.608 Nm, and 2.858 Nm of the head. Of these 5.466 Nm the head takes 4.042 Nm in a
    // harness, which leaves 0.907 kg.
    expect([0.9, 0.91].map((harnessKg) => isEntryOfHarnessTooHigh(withEquipment({ harnessKg }, measuring(80))))).toEqual([false, true])
  })

  it('above the starting share of the maximum when empty needs approval for that as well', () => {
    // No band to compare with. 20 % of 40 N is 8 N, which hangs as 0.816 kg; of a head without weight.
    const alone = (harnessKg: number): Plan => withEquipment({ harnessKg, bands: [] }, measuring(40))
    expect([0.81, 0.82].map((harnessKg) => isEntryOfHarnessTooHigh(alone(harnessKg), { assumptions: headless }))).toEqual([false, true])
  })

  it('without a measured maximum ends at 10 kg and is not left', () => {
    const unmeasured: Plan = { ...extensionPlan, measurements: [] }
    expect([rungsOf(unmeasured), rungOf(unmeasured, 4).at(-1)]).toEqual([[1, 2, 3, 4], '9.9 kg: 3 × 8 10 12 12'])
  })

  it('heavier with the head than 45 % of the maximum when empty closes its rung and all above', () => {
    // 0.4 kg and the head are 0.628 Nm and 4.042 Nm, which is 45 % of 64.87 N at 16 cm.
    const withoutBand = (force: number): Plan => withEquipment({ bands: [] }, measuring(force))
    expect([64, 65].map((force) => rungsOf(withoutBand(force)))).toEqual([[1, 2], [1, 2, 4, 5]])
  })

  it('is left where the plates reach the target within a step of 10 %, and else is the last rung', () => {
    // Target 8.64 Nm, so 7.776 Nm at least: with the head 2.379 kg.
    const topping = (plate: number): Plan => withEquipment({ platesKg: [plate] })
    expect([1.97, 1.98].map((plate) => rungsOf(topping(plate)))).toEqual([[1, 2, 3, 4], [1, 2, 3, 4, 5]])
  })

  it('ends at the protocol’s own limit for a strong neck, and is not left below the target', () => {
    // 45 % of 400 N with the head leaves 15.8 kg; 10 kg is the limit.
    const strong = withEquipment({ bands: [] }, measuring(400))
    expect([rungsOf(strong), rungOf(strong, 4).at(-1)]).toEqual([[1, 2, 4], '9.9 kg: 3 × 8 10 12 12'])
  })

  it.each<readonly [string, number | null, number, string, readonly number[]]>([
    ['where the therapist says, without a measured maximum', null, 2, '1.9 kg: 3 × 8 10 12 12', [1, 2, 4, 5]],
    ['where the therapist says, below the target', 120, 2, '1.9 kg: 3 × 8 10 12 12', [1, 2, 4, 5]],
    ['at the target all the same, where the therapist says more', 120, 5, '2.9 kg: 3 × 8 10 12 12', [1, 2, 4, 5]],
    ['above the protocol’s own limit, where the therapist says so', 400, 11, '10.9 kg: 3 × 8 10 12 12', [1, 2, 4, 5]],
  ])('ends %s', (_, force, targetKg, last, rungs) => {
    const measured: Plan = force === null ? { ...extensionPlan, measurements: [] } : measuring(force)
    const ladders = measured.ladders.map((ladder) => ({ ...ladder, targetKg }))
    const plan = { ...withEquipment({ bands: [], platesKg: [...equipment.platesKg, 5] }, measured), ladders }
    expect([rungOf(plan, 4).at(-1), rungsOf(plan)]).toEqual([last, rungs])
  })

  it('is not left below what the therapist says', () => {
    const ladders = extensionPlan.ladders.map((ladder) => ({ ...ladder, targetKg: 2 }))
    // Nine tenths of 2 kg are 1.8 kg.
    const tops = [1.39, 1.4].map((plate) => rungsOf({ ...withEquipment({ platesKg: [plate] }), ladders }))
    expect(tops).toEqual([[1, 2, 3, 4], [1, 2, 3, 4, 5]])
  })
})

describe('a head that is lifted', () => {
  const lift = content.exercises.get(brandAs<ExerciseId>('lying-head-lift'))

  const held = content.exercises.get(brandAs<ExerciseId>('seated-hold-two-hands'))

  function liftedUnder(changes: Partial<LoadFacts>, protocol = novice()): Chain {
    if (!lift || !held) throw new Error('no lying-head-lift, or no seated-hold-two-hands')
    const loads = { maximum: null, assumptions: assumed, targetKg: null, ...changes }
    const rungs = [{ rung: 1, exercise: lift }, { rung: 2, exercise: held }]
    return buildChain({ ladder: 'flexion', equipment, protocol, startRung: 1, rungs, loads })
  }

  function liftedWith(forceN: number | null): readonly string[] {
    return writeChain(liftedUnder({ maximum: forceN === null ? null : maximumOf(forceN) })).filter((line) => line.startsWith('rung 1'))
  }

  // Lying flat the head takes 5.717 Nm: 45 % of 79.40 N at 16 cm, and 75 % of 47.64 N.
  it.each([
    ['without a measured maximum is a hold like others', null, '[3×3s]'],
    ['up to 45 % of the maximum as well', 79.5, '[3×3s]'],
    ['above 45 % needs approval to be entered', 79.3, '[3×3s]!'],
    ['up to 75 % as well', 47.7, '[3×3s]!'],
  ])('%s', (_, forceN, entry) => {
    expect(liftedWith(forceN)).toEqual([`rung 1, no load: 3 × 2×2s 3×2s ${entry} 4×3s 5×3s 5×4s 5×5s 5×6s 5×8s 5×10s 5×10s`])
  })

  it('above 75 % is not offered, nor anything above it', () => {
    expect(liftedUnder({ maximum: maximumOf(47.6) }).places).toEqual([])
  })

  // Of 3 kg at one metre, against a maximum as of 4 kg or 6 kg there.
  it.each([
    ['of exactly 75 % is offered', 4, 0.45, [true]],
    ['of exactly the target needs no approval', 6, 0.5, [false]],
    ['just above the target does', 6, 0.49, [true]],
  ])('%s', (_, kilograms, target, approvals) => {
    const own = { forceN: 100, momentNm: kilograms * 9.80665 }
    const assumptions = { ...assumed, bodyKg: 100, headShare: 0.03, headLeverCm: 100 }
    const { working, maximum, ...protocol } = novice()
    const bounded = { ...protocol, working: { ...working, flexion: { warmUp: 0.2, target } }, maximum: { ...maximum, ceiling: 0.5 } }
    const { places } = liftedUnder({ maximum: { ...own, lowest: own }, assumptions }, bounded)
    expect(places.filter((place) => place.rung === 1 && place.isEntry).map((place) => place.needsApproval)).toEqual(approvals)
  })
})

describe('the last dose before a load step, and of a rung', () => {
  it('is met once and met again, and every other only once', () => {
    const { places } = extensionChain({ ...extensionPlan, measurements: [] })
    const band = places.filter((place) => place.rung === 3).map(({ dose, standing }) => `${loadMagnitude(dose.load)} N × ${dose.reps} ${standing}`)
    expect(band).toEqual([
      '8 N × 4 only', '8 N × 5 only', '8 N × 6 only', '8 N × 8 only', '8 N × 10 only', '8 N × 12 once', '8 N × 12 again',
      '8.6 N × 8 only', '8.6 N × 10 only', '8.6 N × 12 once', '8.6 N × 12 again',
      '9.3 N × 8 only', '9.3 N × 10 only', '9.3 N × 12 once', '9.3 N × 12 again',
    ])
  })
})

describe('the start of a plan', () => {
  it.each<readonly [string, Plan, number, string]>([
    ['is the entry of its rung', extensionPlan, 2, '2 3 × 5 × 5 s, push 3'],
    ['may be the lowest rung, where the therapist says so', extensionPlan, 1, '1 3 × 5 × 3 s'],
    ['is the next rung below where its own has no dose', withEquipment({ harnessKg: 1.2 }), 4, '3 3 × 8, 17.9 N'],
  ])('%s', (_, plan, rung, expected) => {
    const chain = extensionChain(plan)
    const place = chain.places[startOn(chain, rung)]
    expect(place && nameOf(place)).toBe(expected)
  })
})
