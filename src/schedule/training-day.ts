// Decides: which training day of the schedule a date belongs to, so that directions can be trained by turns.
// Source: our choice. It is worked out from the calendar alone: a turn that moved with the sessions done would give another
// direction more after a bad day. Reviewed 2026-11.
import { brandAs, type LocalDate } from '#src/domain/identifier.ts'
import { weekdays, type Weekday } from '#src/domain/plan.ts'
import type { TrainingDay } from '#src/domain/training-day.ts'
import { daysBetween } from './wall-time.ts'

/** Any Monday would do. */
const firstMonday = brandAs<LocalDate>('1970-01-05')
const daysPerWeek = 7

export function turnOn(date: LocalDate, days: readonly Weekday[]): TrainingDay {
  const scheduled = weekdays.filter((weekday) => days.includes(weekday))
  const sinceFirst = daysBetween(firstMonday, date)
  const week = Math.floor(sinceFirst / daysPerWeek)
  const weekday = sinceFirst - week * daysPerWeek
  const day = scheduled.findLastIndex((one) => weekdays.indexOf(one) <= weekday)
  if (day >= 0) return { week, day, daysAWeek: scheduled.length }
  return { week: week - 1, day: Math.max(0, scheduled.length - 1), daysAWeek: scheduled.length }
}
