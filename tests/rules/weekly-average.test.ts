import { describe, expect, it } from 'vitest'
import { isWholeWeek, weeklyAverage } from '#src/rules/weekly-average.ts'

describe('the average of a week', () => {
  it.each([
    ['is the mean of the three', { now: 3, best: 1, worst: 5 }, 3],
    ['is given to one decimal, thirds down', { now: 3, best: 1, worst: 6 }, 3.3],
    ['is given to one decimal, two thirds up', { now: 3, best: 1, worst: 7 }, 3.7],
    ['is the same where best and worst are mixed up', { now: 3, best: 7, worst: 1 }, 3.7],
    ['of two answers is their mean', { now: 3, best: null, worst: 6 }, 4.5],
    ['of one answer is that', { now: 3, best: null, worst: null }, 3],
    ['of no pain is 0', { now: 0, best: 0, worst: 0 }, 0],
  ])('%s', (_, ratings, expected) => {
    expect(weeklyAverage(ratings)).toBe(expected)
  })

  it('is of a whole week only where all three were answered', () => {
    const weeks = [{ now: 1, best: 0, worst: 0 }, { now: 1, best: null, worst: 2 }, { now: 1, best: 0, worst: null }]
    expect(weeks.map(isWholeWeek)).toEqual([true, false, false])
  })
})
