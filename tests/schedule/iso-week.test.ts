import { describe, expect, it } from 'vitest'
import { brandAs, type LocalDate } from '#src/domain/identifier.ts'
import { isoWeekOf, isoWeeksUpTo } from '#src/schedule/iso-week.ts'

const date = (text: string): LocalDate => brandAs<LocalDate>(text)

describe('the ISO week of a date', () => {
  it.each([
    ['2026-11-22', '2026-W47'],
    ['2026-11-23', '2026-W48'],
    ['2026-11-29', '2026-W48'],
    ['2026-11-30', '2026-W49'],
  ])('of %s is %s: it starts on Monday', (on, week) => {
    expect(isoWeekOf(date(on))).toBe(week)
  })

  it('of what is no date is a mistake of ours', () => {
    expect(() => isoWeekOf(date('2026-02-30'))).toThrow(new RangeError('a local date is not YYYY-MM-DD'))
  })
})

describe('the last weeks', () => {
  it.each([
    ['2027-01-06', 1, ['2027-W01']],
    ['2027-01-06', 4, ['2026-W51', '2026-W52', '2026-W53', '2027-W01']],
    ['2027-01-03', 2, ['2026-W52', '2026-W53']],
  ])('up to %s, %i of them, are %j', (on, count, weeks) => {
    expect(isoWeeksUpTo(date(on), count)).toEqual(weeks)
  })
})
