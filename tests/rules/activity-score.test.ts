import { describe, expect, it } from 'vitest'
import { compareActivities } from '#src/rules/activity-score.ts'

describe('activities that were scored twice', () => {
  it.each([
    ['are compared by their means', [3, 5, 4], [6, 7, 5], { first: 4, last: 6, compared: 3 }],
    ['leave out one that is new', [3, null], [5, 10], { first: 3, last: 5, compared: 1 }],
    ['leave out one that was not scored again', [3, 9], [5, null], { first: 3, last: 5, compared: 1 }],
    ['leave out one that was not reached', [3, 9], [5], { first: 3, last: 5, compared: 1 }],
    ['count a score of 0', [0, 4], [0, 6], { first: 2, last: 3, compared: 2 }],
  ])('%s', (_, first, last, expected) => {
    expect(compareActivities(first, last)).toEqual(expected)
  })

  it.each([
    ['none was', [], []],
    ['each was scored only once', [null, 4], [5, null]],
  ])('are not compared where %s', (_, first, last) => {
    expect(compareActivities(first, last)).toBeNull()
  })
})
