// The ladder defaults are our choice, for a clinician to review; holds before band, harness and bridge is common practice,
// no source. The loads of the plan to try are worked out by hand in the comments.
import { describe, expect, it } from 'vitest'
import type { Plan } from '#src/domain/plan.ts'
import { startOn } from '#src/rules/moves.ts'
import { chainFor, coarsePlan, extensionPlan, nameOf } from '../support/sample-chain.ts'
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

/** The lines of one rung, without its number. */
function rungOf(plan: Plan, rung: number): readonly string[] {
  const head = `rung ${rung}, `
  return writeChain(chainFor(plan)).filter((line) => line.startsWith(head)).map((line) => line.slice(head.length))
}

function rungsOf(plan: Plan): readonly number[] {
  return [...new Set(chainFor(plan).places.map((place) => place.rung))]
}

describe('the chain of the plan to try', () => {
  it('reads from the lightest hold to the longest bridge', () => {
    // Measured maximum 120 N: band from at most 18 N (15 %) to at least 24 N (20 %), two steps on; the harness up to 54 N
    // (45 %), which hangs as 5.506 kg. Medium band: 14 N at 10 cm, 0.56 N a centimetre; 17.92 N at 17 cm is the last not
    // above 18. Plates in steps of 0.25 kg: 62 %, 38 % and 28 % ask for two places beyond, up to 10.4 % for one.
    expect(writeChain(chainFor(extensionPlan))).toEqual([
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
      'rung 4, 3.15 kg: 3 × 8 10 12 12',
      'rung 4, 3.4 kg: 3 × 8 10 12 12',
      'rung 4, 3.65 kg: 3 × 8 10 12 12',
      'rung 4, 3.9 kg: 3 × 8 10 12 12',
      'rung 4, 4.15 kg: 3 × 8 10 12 12',
      'rung 4, 4.4 kg: 3 × 8 10 12 12',
      'rung 4, 4.65 kg: 3 × 8 10 12 12',
      'rung 4, 4.9 kg: 3 × 8 10 12 12',
      'rung 4, 5.15 kg: 3 × 8 10 12 12',
      'rung 4, 5.4 kg: 3 × 8 10 12 12',
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
    // 15 % of 50 N is 7.5 N, below the least force of 8 N; 20 % is 10 N.
    expect(rungOf(measuring(50), 3)).toEqual([
      '8 N, light at 10 cm: 3 × 4 5 6 [8]! 10 12 12',
      '8.6 N, light at 12 cm: 3 × 8 10 12 12',
      '9.3 N, light at 14 cm: 3 × 8 10 12 12',
      '10.2 N, light at 17 cm: 3 × 8 10 12 12',
    ])
  })

  it('that is above 45 % of the maximum at its least is passed over', () => {
    // 45 % of 17 N is 7.65 N, of 18 N 8.1 N.
    expect([17, 18].map((force) => rungsOf(measuring(force)).includes(3))).toEqual([false, true])
  })

  it('too weak to reach 20 % of the maximum is the last rung that the rules know', () => {
    const weak = withEquipment({ bands: [{ id: 'weak', points: [{ stretchCm: 10, forceN: 8 }, { stretchCm: 30, forceN: 12 }] }] })
    expect(rungsOf(weak)).toEqual([1, 2, 3])
  })

  it('too weak to reach it does not cut off a client who starts above', () => {
    const weak = withEquipment({ bands: [{ id: 'weak', points: [{ stretchCm: 10, forceN: 8 }, { stretchCm: 30, forceN: 12 }] }] })
    expect(rungsOf(startingOn(4, weak))).toEqual([1, 2, 3, 4, 5])
  })
})

describe('the harness', () => {
  it('with coarse plates asks for approval and repetitions beyond the range', () => {
    expect(rungOf(coarsePlan, 4)).toEqual([
      '0.4 kg: 3 × 4 5 6 [8] 10 12 14 16 16',
      '1.4 kg: 3 × 8! 10 12 14 16 16',
      '2.4 kg: 3 × 8! 10 12 14 16 16',
      '3.4 kg: 3 × 8 10 12 14 16 16',
      '4.4 kg: 3 × 8 10 12 14 14',
      '5.4 kg: 3 × 8 10 12 12',
    ])
  })

  it('is entered up to a kilogram, and left out above', () => {
    expect([1, 1.01].map((harnessKg) => rungsOf(withEquipment({ harnessKg })))).toEqual([
      [1, 2, 3, 4, 5],
      [1, 2, 3, 5],
    ])
  })

  it('heavier than the last of the band needs approval for that as well', () => {
    // The weak client's band ends at 9.3 N; 1 kg hangs with 9.8 N, 0.9 kg with 8.8 N.
    const entries = [0.9, 1].map((harnessKg) => chainFor(withEquipment({ harnessKg }, { ...extensionPlan, measurements: [] })).places.find((place) => place.rung === 4 && place.isEntry)?.needsApproval)
    expect(entries).toEqual([false, true])
  })

  it('without a measured maximum ends at 10 kg and is not left', () => {
    const unmeasured: Plan = { ...extensionPlan, measurements: [] }
    expect([rungsOf(unmeasured), rungOf(unmeasured, 4).at(-1)]).toEqual([[1, 2, 3, 4], '9.9 kg: 3 × 8 10 12 12'])
  })

  it('heavier than 45 % of the maximum when empty is passed over', () => {
    // 45 % of 8.5 N hangs as 0.390 kg, of 9 N as 0.413 kg.
    expect([8.5, 9].map((force) => rungsOf(measuring(force)).includes(4))).toEqual([false, true])
  })
})

describe('the start of a plan', () => {
  it.each<readonly [string, Plan, number, string]>([
    ['is the entry of its rung', extensionPlan, 2, '2 3 × 5 × 5 s, push 3'],
    ['may be the lowest rung, where the therapist says so', extensionPlan, 1, '1 3 × 5 × 3 s'],
    ['is the next rung below where its own has no dose', withEquipment({ harnessKg: 1.2 }), 4, '3 3 × 8, 17.9 N'],
  ])('%s', (_, plan, rung, expected) => {
    const chain = chainFor(plan)
    const place = chain.places[startOn(chain, rung)]
    expect(place && nameOf(place)).toBe(expected)
  })
})
