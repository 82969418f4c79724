import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { brandAs, type LocalDate } from '#src/domain/identifier.ts'
import { weekdays, type Weekday } from '#src/domain/plan.ts'
import type { TrainingDay } from '#src/domain/training-day.ts'
import { turnOn } from '#src/schedule/training-day.ts'
import { addDays, weekdayOf } from '#src/schedule/wall-time.ts'

const date = (text: string): LocalDate => brandAs<LocalDate>(text)
const threeDays: readonly Weekday[] = ['mon', 'wed', 'fri']
const ordinal = ({ week, day, daysAWeek }: TrainingDay): number => week * daysAWeek + day

describe('the training day of a date', () => {
  // 2026-12-28 is a Monday, 2973 weeks after 1970-01-05.
  it.each([
    ['2026-12-27', threeDays, { week: 2972, day: 2, daysAWeek: 3 }],
    ['2026-12-28', threeDays, { week: 2973, day: 0, daysAWeek: 3 }],
    ['2026-12-29', threeDays, { week: 2973, day: 0, daysAWeek: 3 }],
    ['2026-12-30', threeDays, { week: 2973, day: 1, daysAWeek: 3 }],
    ['2026-12-31', threeDays, { week: 2973, day: 1, daysAWeek: 3 }],
    ['2027-01-01', threeDays, { week: 2973, day: 2, daysAWeek: 3 }],
    ['2027-01-03', threeDays, { week: 2973, day: 2, daysAWeek: 3 }],
    ['2027-01-04', threeDays, { week: 2974, day: 0, daysAWeek: 3 }],
    ['2027-01-04', ['tue', 'sat'], { week: 2973, day: 1, daysAWeek: 2 }],
    ['2027-01-05', ['tue', 'sat'], { week: 2974, day: 0, daysAWeek: 2 }],
    ['2027-01-09', ['sat', 'tue'], { week: 2974, day: 1, daysAWeek: 2 }],
    ['1970-01-05', ['mon'], { week: 0, day: 0, daysAWeek: 1 }],
    ['1970-01-04', ['mon'], { week: -1, day: 0, daysAWeek: 1 }],
  ] as const)('of %s on %j is %j', (on, days, expected) => {
    expect(turnOn(date(on), days)).toEqual(expected)
  })

  it('goes on by one on every scheduled date and on no other, whatever the schedule', () => {
    fc.assert(
      fc.property(fc.subarray([...weekdays], { minLength: 1 }), fc.integer({ min: -900, max: 30_000 }), (days, after) => {
        const today = addDays(date('1970-01-05'), after)
        const tomorrow = addDays(today, 1)
        const step = ordinal(turnOn(tomorrow, days)) - ordinal(turnOn(today, days))
        expect(step).toBe(days.includes(weekdayOf(tomorrow)) ? 1 : 0)
      }),
    )
  })
})
