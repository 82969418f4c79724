import { DateTime } from 'luxon'
import type { LocalDate } from '#src/domain/identifier.ts'
import { addDays } from './wall-time.ts'

const daysPerWeek = 7

/** The ISO 8601 week of a calendar day, e.g. `2026-W53`: it starts on Monday, and week 1 holds the first Thursday. */
export function isoWeekOf(date: LocalDate): string {
  const weekDate = DateTime.fromISO(date, { zone: 'utc' }).toISOWeekDate()
  if (weekDate === null) throw new RangeError('a local date is not YYYY-MM-DD')
  return weekDate.slice(0, -'-1'.length)
}

/** The last weeks up to and with that of `date`, oldest first. */
export function isoWeeksUpTo(date: LocalDate, count: number): readonly string[] {
  return Array.from({ length: count }, (_, index) => isoWeekOf(addDays(date, (index - count + 1) * daysPerWeek)))
}
