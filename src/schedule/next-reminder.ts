// Decides: when the next reminder of a session is due.
// Source: RFC 5545 3.3.5 for skipped and repeated times; one reminder a local date is our choice. It is worked out from
// the stored wall time each time, never from the reminder before, so that a change of clocks or zone cannot add up.
import type { Instant, LocalDate } from '#src/domain/identifier.ts'
import type { Schedule, WallTime } from '#src/domain/plan.ts'
import { instantOnDate, timeOutsideQuiet } from './quiet-hours.ts'
import { addDays, daysBetween, localDateOf, weekdayOf } from './wall-time.ts'

export interface NextReminder {
  readonly schedule: Schedule
  readonly zone: string
  readonly after: Instant
  /** The client's local date when the last reminder was sent; null before the first. */
  readonly lastOn: LocalDate | null
}

/** Enough for one day a week, even if the next is passed over and the zone never had the one after. */
const datesLookedAt = 28
/** The local dates of two places are never further apart than this (UTC−12 and UTC+14). */
const mostDatesAhead = 2

/** Null where the schedule can never remind: it has no days, or its time is one that {@link reminderTime} refuses. */
export function nextReminderAt({ schedule, zone, after, lastOn }: NextReminder): Instant | null {
  const time = reminderTime(schedule)
  if (time === null) return null
  const today = localDateOf(after, zone)
  for (let days = 0; days < datesLookedAt; days += 1) {
    const date = addDays(today, days)
    if (!schedule.days.includes(weekdayOf(date)) || isPassedOver(date, lastOn, today)) continue
    const at = instantOnDate(date, time, schedule.quiet, zone)
    if (at !== null && at > after) return at
  }
  return null
}

/** The time of day at which a schedule reminds; null where it lies in quiet hours that end on another date. */
export function reminderTime(schedule: Schedule): WallTime | null {
  return timeOutsideQuiet(schedule.time, schedule.quiet)
}

/**
 * Dates up to the last reminder's had theirs, also for a client who flew back over the date line. A last date further
 * ahead than any place can be comes from a clock that was wrong, and must not silence the reminders until then.
 */
function isPassedOver(date: LocalDate, lastOn: LocalDate | null, today: LocalDate): boolean {
  if (lastOn === null) return false
  return daysBetween(today, lastOn) > mostDatesAhead ? date === lastOn : date <= lastOn
}
