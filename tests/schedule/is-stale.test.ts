import { describe, expect, it } from 'vitest'
import { isStale } from '#src/schedule/is-stale.ts'

const dueAt = Date.parse('2027-01-04T18:00Z')

describe('a reminder found due', () => {
  it.each([
    ['2027-01-04T18:00:00Z', false],
    ['2027-01-04T20:00:00Z', false],
    ['2027-01-04T20:00:01Z', true],
    ['2027-01-05T18:00:00Z', true],
    ['2027-01-03T18:00:00Z', false],
  ])('at %s is stale: %s', (at, stale) => {
    expect(isStale(dueAt, Date.parse(at))).toBe(stale)
  })
})
