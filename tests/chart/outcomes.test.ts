import { describe, expect, it } from 'vitest'
import { activityChangeOf, addScore, addWeek, averageSince, keep, noOutcomes, signedRating, takeBackScore, type Outcomes, type WeekOfPain } from '#src/chart/outcomes.ts'

const marks = (kept: readonly { readonly at: number }[]): readonly number[] => kept.map(({ at }) => at)
const whole = (at: number, now = 1): WeekOfPain => ({ at, now, best: 0, worst: 2 })
const partial = (at: number): WeekOfPain => ({ at, now: 1, best: null, worst: null })

describe('what is kept of a measure', () => {
  it('is the first and the last four, however many there were', () => {
    const all = Array.from({ length: 40 }, (_, at) => ({ at }))
    const kept = all.map((_, count) => marks(all.slice(0, count + 1).reduce<readonly { at: number }[]>(keep, [])))
    expect([kept[0], kept[4], kept[5], kept[39]]).toEqual([[0], [0, 1, 2, 3, 4], [0, 2, 3, 4, 5], [0, 36, 37, 38, 39]])
  })

  it('is the newer of two of the same occasion', () => {
    expect(keep([{ at: 1, value: 2 }], { at: 1, value: 3 })).toEqual([{ at: 1, value: 3 }])
  })
})

describe('a week that was left early', () => {
  it('is kept while there is no other, since two weeks running are compared', () => {
    expect(marks(addWeek([partial(1)], whole(2)))).toEqual([1, 2])
  })

  it('is no beginning once there are others', () => {
    expect(marks(addWeek([partial(1), whole(2)], whole(3)))).toEqual([2, 3])
  })

  it('stays where a later answer of the same week comes in', () => {
    expect(marks(addWeek([partial(1), partial(2)], whole(2)))).toEqual([1, 2])
  })
})

describe('the average for the gate', () => {
  it.each([
    ['is that of the last week', 1, 4],
    ['is none where that is too old', 2, null],
  ])('%s', (_, since, average) => {
    expect(averageSince({ ...noOutcomes, weeks: [whole(1), { at: 2, now: 4, best: 2, worst: 6 }] }, since)).toBe(average)
  })

  it('is none before the first week', () => {
    expect(averageSince(noOutcomes, 0)).toBeNull()
  })
})

describe('activities', () => {
  const named: Outcomes = { ...noOutcomes, activities: ['drive', 'sleep'].map((name) => ({ name, namedAt: 1, first: null })) }

  it('are compared with the first score that each has got', () => {
    const first = addScore(addScore(named, 1, null), 1, 4)
    const second = addScore(addScore(first, 2, 5), 2, 6)
    const third = addScore(addScore(second, 3, 8), 3, null)
    expect([first, second, third].map(activityChangeOf)).toEqual([
      null,
      { first: 4, last: 6, compared: 1 },
      { first: 5, last: 8, compared: 1 },
    ])
  })

  it('lose a score that was a slip, also as their first', () => {
    expect(takeBackScore(addScore(named, 1, 3), 1)).toEqual({ ...named, rounds: [{ at: 1, scores: [] }] })
  })

  it('keep their first score where a later one was a slip', () => {
    const first = addScore(named, 1, 3)
    expect(takeBackScore(addScore(first, 2, 9), 2).activities).toEqual(first.activities)
  })
})

it.each([
  ['better', 3, 3],
  ['worse', 3, -3],
  ['worse', null, null],
  ['better', null, null],
  ['same', null, 0],
] as const)('a global rating of %s by %j is %j', (turn, amount, rating) => {
  expect(signedRating({ at: 0, turn, amount })).toBe(rating)
})
