import { describe, expect, it } from 'vitest'
import { sizeOfChange } from '#src/rules/global-change.ts'

describe('a global rating of change', () => {
  it.each([
    [0, 'none'],
    [1, 'small'],
    [3, 'small'],
    [4, 'moderate'],
    [5, 'moderate'],
    [6, 'large'],
    [7, 'large'],
    [-1, 'small'],
    [-4, 'moderate'],
    [-7, 'large'],
  ])('of %d is %s', (rating, size) => {
    expect(sizeOfChange(rating)).toBe(size)
  })

  it.each([8, -8, 0.5, Number.NaN])('of %d is refused', (rating) => {
    expect(() => sizeOfChange(rating)).toThrow(new RangeError('a global rating is a whole number from -7 to 7'))
  })
})
