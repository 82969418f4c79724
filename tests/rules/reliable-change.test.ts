import { describe, expect, it } from 'vitest'
import { detectableChange, differenceErrorOf, reliableChange, standardErrorOf } from '#src/rules/reliable-change.ts'

describe('the standard error of measurement', () => {
  it.each([
    ['nothing for a measure that is wholly reliable', 8, 1, 0],
    ['the whole spread for one that is not reliable at all', 8, 0, 8],
    ['nothing where people do not differ', 0, 0.5, 0],
    ['half the spread at a reliability of three quarters', 8, 0.75, 4],
  ])('is %s', (_, deviation, reliability, expected) => {
    expect(standardErrorOf(deviation, reliability)).toBe(expected)
  })

  it.each([
    [-0.1, 0.5],
    [1, -0.1],
    [1, 1.1],
    [Number.NaN, 0.5],
    [1, Number.NaN],
  ])('of a spread of %d and a reliability of %d is refused', (deviation, reliability) => {
    expect(() => standardErrorOf(deviation, reliability)).toThrow(new RangeError('a standard deviation below 0, or a reliability outside 0 to 1'))
  })
})

describe('the error of a difference', () => {
  it('is that of both measurements', () => {
    expect(differenceErrorOf(3)).toBeCloseTo(4.2426, 4)
  })

  it('is larger at the higher confidence', () => {
    expect([detectableChange(1, 90), detectableChange(1, 95)].map((value) => value.toFixed(4))).toEqual(['2.3264', '2.7719'])
  })
})

describe('a change', () => {
  const standardError = 1 / Math.SQRT2

  it.each([
    ['is not reliable at 1.96 errors of the difference', 1.96, { index: 1.96, isReliable: false }],
    ['is reliable above', 1.9601, { index: 1.9601, isReliable: true }],
    ['is reliable to the other side too', -1.9601, { index: -1.9601, isReliable: true }],
    ['of nothing is not reliable', 0, { index: 0, isReliable: false }],
  ])('%s', (_, change, expected) => {
    const { index, isReliable } = reliableChange(change, standardError)
    expect({ index: Number(index?.toFixed(4)), isReliable }).toEqual(expected)
  })

  it.each([
    [0, { index: null, isReliable: false }],
    [-0.5, { index: null, isReliable: true }],
  ])('of %d in a measure without error has no index', (change, expected) => {
    expect(reliableChange(change, 0)).toEqual(expected)
  })
})
