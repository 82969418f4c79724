import { describe, expect, it } from 'vitest'
import { bandOf, scoreDisability, type ItemScores } from '#src/rules/disability-score.ts'

/** Ten items with this sum, the last ones missing. */
function items(answered: number, sum: number): ItemScores {
  const each = Math.floor(sum / answered)
  return Array.from({ length: 10 }, (_, place) => (place >= answered ? null : place < sum - each * answered ? each + 1 : each))
}

describe('a disability score', () => {
  it.each([
    ['of ten answers is their sum', items(10, 16), { kind: 'scored', raw: 16, percent: 32, band: 'moderate', answered: 10 }],
    ['of nothing but zeros is none', items(10, 0), { kind: 'scored', raw: 0, percent: 0, band: 'none', answered: 10 }],
    ['of nothing but fives is complete', items(10, 50), { kind: 'scored', raw: 50, percent: 100, band: 'complete', answered: 10 }],
    ['with two gaps is filled in by the mean', items(8, 16), { kind: 'scored', raw: 20, percent: 40, band: 'moderate', answered: 8 }],
    ['with three gaps is none', items(7, 16), { kind: 'too-many-gaps', answered: 7 }],
    ['of no answers is none', items(0, 0), { kind: 'too-many-gaps', answered: 0 }],
  ])('%s', (_, scores, expected) => {
    expect(scoreDisability(scores)).toEqual(expected)
  })

  it('may have its gaps anywhere', () => {
    expect(scoreDisability([null, 2, 2, 2, null, 2, 2, 2, 2, 2])).toEqual(scoreDisability([2, 2, 2, 2, 2, 2, 2, 2, null, null]))
  })

  it.each([
    ['nine items', [1, 1, 1, 1, 1, 1, 1, 1, 1]],
    ['eleven items', [1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1]],
    ['a score of 6', [6, 1, 1, 1, 1, 1, 1, 1, 1, 1]],
    ['a score below 0', [-1, 1, 1, 1, 1, 1, 1, 1, 1, 1]],
    ['half a score', [0.5, 1, 1, 1, 1, 1, 1, 1, 1, 1]],
  ])('of %s is refused', (_, scores) => {
    expect(() => scoreDisability(scores)).toThrow(new RangeError('not ten item scores of 0 to 5'))
  })
})

describe('the band', () => {
  it.each([
    [0, 'none'],
    [4.99, 'none'],
    [5, 'mild'],
    [14.99, 'mild'],
    [15, 'moderate'],
    [24.99, 'moderate'],
    [25, 'severe'],
    [34.99, 'severe'],
    [35, 'complete'],
    [50, 'complete'],
  ])('of a raw score of %d is %s', (raw, band) => {
    expect(bandOf(raw)).toBe(band)
  })
})
