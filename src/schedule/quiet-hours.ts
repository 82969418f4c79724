import type { Instant, LocalDate } from '#src/domain/identifier.ts'
import type { Schedule, WallTime } from '#src/domain/plan.ts'
import { addDays, instantOf, localDateOf, minuteMs, minutesOf, wallTimeOf } from './wall-time.ts'

export type QuietHours = Schedule['quiet']

/** From `from` up to, but not at, `to`; past midnight where `to` is the earlier. Equal ends: no quiet hours. */
export function isInQuiet(time: WallTime, quiet: QuietHours): boolean {
  const [now, from, to] = [minutesOf(time), minutesOf(quiet.from), minutesOf(quiet.to)]
  return from <= to ? from <= now && now < to : from <= now || now < to
}

/** The time, or the end of the quiet hours it lies in; null where they end on another date. */
export function timeOutsideQuiet(time: WallTime, quiet: QuietHours): WallTime | null {
  if (!isInQuiet(time, quiet)) return time
  return minutesOf(time) < minutesOf(quiet.to) && quiet.to !== '24:00' ? quiet.to : null
}

/** The instant itself, or the end of the quiet hours it lies in. */
export function timeAfterQuiet(at: Instant, zone: string, quiet: QuietHours): Instant {
  if (!isInQuiet(wallTimeOf(at, zone), quiet)) return at
  const today = localDateOf(at, zone)
  const ends = [today, addDays(today, 1)].map((date) => instantOf(date, quiet.to, zone))
  return ends.find((end) => end > at) ?? at
}

/**
 * When a wall time outside the quiet hours is met on a date, on that date and outside them even where the clocks skip
 * it: a shift into quiet waits for their end; a shift past midnight (Nuuk skips from 23:00) falls back to the last
 * minute before it. Null for a date that the zone never had.
 */
export function instantOnDate(date: LocalDate, time: WallTime, quiet: QuietHours, zone: string): Instant | null {
  const asked = instantOf(date, time, zone)
  const choices =
    localDateOf(asked, zone) === date
      ? [asked, instantOf(date, quiet.to, zone)]
      : [instantOf(addDays(date, 1), '00:00', zone) - minuteMs, instantOf(date, quiet.from, zone) - minuteMs]
  const fits = (at: Instant): boolean => localDateOf(at, zone) === date && !isInQuiet(wallTimeOf(at, zone), quiet)
  return choices.find(fits) ?? null
}
