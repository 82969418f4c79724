// The formulas are checked against their published tables in tests/evidence/working-loads.test.ts; median, one repetition of
// error and the limit of ten are our choice.
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { estimateMaximum } from '#src/rules/estimate-maximum.ts'

describe('an estimate', () => {
  it('is the median of seven formulas, between the lowest at one repetition fewer and the highest at one more', () => {
    // [calc] 7.5 kg for 8: 9.00 9.23 9.31 9.38 9.47 9.50 9.58. For 7 the lowest is O'Conner, 8.8125; for 9 Wathan,
    // 9.8435.
    const estimate = estimateMaximum({ load: 7.5, reps: 6, reserve: 2 })
    expect(estimate).toEqual({ kind: 'estimated', value: expect.closeTo(9.3832, 4), low: expect.closeTo(8.8125, 4), high: expect.closeTo(9.8435, 4), toFailure: 8 })
  })

  it('counts what was done as done: without reserve the fewest are the repetitions themselves', () => {
    // [calc] 10 kg: for 5 Brzycki and O'Conner agree on 11.25, for 4 Brzycki is the lowest, 360/33.
    const [sure, unsure] = [estimateMaximum({ load: 10, reps: 5, reserve: 0 }), estimateMaximum({ load: 10, reps: 4, reserve: 1 })]
    expect([sure, unsure].map((one) => one.kind === 'estimated' && one.low)).toEqual([expect.closeTo(11.25, 6), expect.closeTo(10.9091, 4)])
  })

  it.each([
    ['of ten repetitions to failure is given', { load: 5, reps: 8, reserve: 2 }, 'estimated'],
    ['of more is not', { load: 5, reps: 8, reserve: 3 }, 'too-many-repetitions'],
    ['of no repetition is not', { load: 5, reps: 0, reserve: 3 }, 'no-repetitions'],
    ['of no load is not', { load: 0, reps: 5, reserve: 0 }, 'no-load'],
  ])('%s', (_, set, expected) => {
    const estimate = estimateMaximum(set)
    expect(estimate.kind === 'none' ? estimate.reason : estimate.kind).toBe(expected)
  })

  it('never falls below the load, lies inside its range, and rises with the load and the repetitions', () => {
    const anySet = fc.record({ load: fc.double({ min: 0.1, max: 100, noNaN: true }), reps: fc.integer({ min: 1, max: 9 }) })
    fc.assert(
      fc.property(anySet, ({ load, reps }) => {
        const [own, heavier, longer] = [{ load, reps, reserve: 0 }, { load: load * 1.1, reps, reserve: 0 }, { load, reps, reserve: 1 }].map(estimateMaximum)
        if (own?.kind !== 'estimated' || heavier?.kind !== 'estimated' || longer?.kind !== 'estimated') throw new Error('no estimate')
        expect(own.low).toBeGreaterThanOrEqual(load)
        expect(own.value).toBeGreaterThanOrEqual(own.low)
        expect(own.high).toBeGreaterThan(own.value)
        expect(heavier.value).toBeGreaterThan(own.value)
        expect(longer.value).toBeGreaterThan(own.value)
      }),
    )
  })
})
