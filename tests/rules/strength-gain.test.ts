// Salo 2006 [figures found, citation memory:high]: standard deviations and a reliability of 0.87 to 0.96; formulas of the
// error in tests/evidence. Worked out by hand: SEM = SD × √0.13, detectable 1.96 × √2 × SEM.
import { describe, expect, it } from 'vitest'
import { strengthGain } from '#src/rules/strength-gain.ts'

/** At a lever arm of 10 cm. */
function strength(forceN: number): { readonly forceN: number; readonly momentNm: number } {
  return { forceN, momentNm: forceN / 10 }
}

describe('a gain in strength', () => {
  it('is told in per cent with the error of measuring beside it', () => {
    expect(strengthGain('extension', strength(120), strength(150))).toEqual({
      quantity: 'forceN',
      before: 120,
      after: 150,
      percent: 25,
      error: { standardError: expect.closeTo(11.2854, 3), detectable95: expect.closeTo(31.281, 2), isWithin: true },
    })
  })

  it.each([
    ['extension', 120, 151.2, true],
    ['extension', 120, 151.3, false],
    ['extension', 120, 88.7, false],
    ['flexion', 80, 99.9, true],
    ['flexion', 80, 100.0, false],
    ['rotation', 80, 102.9, true],
    ['rotation', 80, 103.0, false],
  ] as const)('of %s from %d to %d N is within the error: %s', (ladder, before, after, isWithin) => {
    expect(strengthGain(ladder, strength(before), strength(after)).error?.isWithin).toBe(isWithin)
  })

  it('of rotation is that of the moment, since its error is published as one', () => {
    const gain = strengthGain('rotation', { forceN: 100, momentNm: 8 }, { forceN: 100, momentNm: 10 })
    expect({ ...gain, error: null }).toEqual({ quantity: 'momentNm', before: 8, after: 10, percent: 25, error: null })
  })

  it.each(['lateral-flexion', 'deep-flexors'] as const)('of %s has no published error, and none is made up', (ladder) => {
    expect(strengthGain(ladder, strength(100), strength(90))).toEqual({ quantity: 'forceN', before: 100, after: 90, percent: -10, error: null })
  })
})
