// Decides: when the next-morning question is asked.
// Source: our choice: 08:00 in the client's zone, after any quiet hours.
import type { Instant, LocalDate } from '#src/domain/identifier.ts'
import { instantOnDate, timeOutsideQuiet, type QuietHours } from './quiet-hours.ts'
import { instantOf, minuteMs } from './wall-time.ts'

const morning = '08:00'

export interface CheckIn {
  /** The date of the check-in itself: the one after the session's. */
  readonly on: LocalDate
  readonly zone: string
  readonly quiet: QuietHours
}

/**
 * Where the quiet hours leave nothing of the date after 08:00, the minute before they begin. Quiet hours all day long are
 * the therapist's error, met when the plan is read: no reminder could be sent either.
 */
export function checkInAt({ on, zone, quiet }: CheckIn): Instant {
  const time = timeOutsideQuiet(morning, quiet)
  if (time === null) return instantOf(on, quiet.from, zone) - minuteMs
  return instantOnDate(on, time, quiet, zone) ?? instantOf(on, time, zone)
}
