import { IANAZone } from 'luxon'
import { brandAs, type Instant, type LocalDate } from '#src/domain/identifier.ts'
import { weekdays, type WallTime, type Weekday } from '#src/domain/plan.ts'

export const minuteMs = 60_000
export const hourMs = 60 * minuteMs
export const dayMs = 24 * hourMs

/**
 * The instant at which a clock in `zone` shows `time` on `date` (RFC 5545, 3.3.5): a time shown twice means the first;
 * one that is skipped is read with the offset before the gap, so that 02:30 is met at 03:30. The offsets are taken from
 * the day before and the day after: letting luxon choose would start from the offset of the machine's today.
 */
export function instantOf(date: LocalDate, time: WallTime, zone: string): Instant {
  const place = zoneOf(zone)
  const wallMs = midnightUtc(date) + minutesOf(time) * minuteMs
  const before = wallMs - place.offset(wallMs - dayMs) * minuteMs
  const after = wallMs - place.offset(wallMs + dayMs) * minuteMs
  if (before === after) return before
  const shown = [before, after].filter((at) => at + place.offset(at) * minuteMs === wallMs)
  return shown.length === 0 ? before : Math.min(...shown)
}

export function localDateOf(at: Instant, zone: string): LocalDate {
  return brandAs<LocalDate>(localText(at, zone).slice(0, 10))
}

export function wallTimeOf(at: Instant, zone: string): WallTime {
  return localText(at, zone).slice(11, 16)
}

export function weekdayOf(date: LocalDate): Weekday {
  // 1970-01-01 was a Thursday; `weekdays` begins on Monday.
  const index = (((midnightUtc(date) / dayMs + 3) % 7) + 7) % 7
  return weekdays[index] as Weekday
}

export function addDays(date: LocalDate, days: number): LocalDate {
  return brandAs<LocalDate>(new Date(midnightUtc(date) + days * dayMs).toISOString().slice(0, 10))
}

/** Calendar days from `a` to `b`; negative when `b` is earlier. */
export function daysBetween(a: LocalDate, b: LocalDate): number {
  return (midnightUtc(b) - midnightUtc(a)) / dayMs
}

/** Minutes since midnight; `24:00` is the end of the day. */
export function minutesOf(time: WallTime): number {
  const [, hours, minutes] = /^([01]\d|2[0-4]):([0-5]\d)$/.exec(time) ?? []
  const sum = Number(hours) * 60 + Number(minutes)
  if (!(sum <= 24 * 60)) throw new RangeError('a wall time is not HH:MM')
  return sum
}

/** `YYYY-MM-DDTHH:MM…` as clock and calendar in `zone` show it. */
function localText(at: Instant, zone: string): string {
  if (!Number.isFinite(at)) throw new RangeError('an instant is not a number of milliseconds')
  return new Date(at + zoneOf(zone).offset(at) * minuteMs).toISOString()
}

/** luxon answers NaN for a zone that it does not know: here that is a mistake of ours, since plans are checked. */
function zoneOf(zone: string): IANAZone {
  const place = IANAZone.create(zone)
  if (!place.isValid) throw new RangeError('a time zone is not in the IANA database')
  return place
}

function midnightUtc(date: LocalDate): number {
  const ms = Date.parse(`${date}T00:00:00Z`)
  // The runtime reads the 30th of February as the 2nd of March: only a date that reads back as itself is one.
  const isDate = !Number.isNaN(ms) && new Date(ms).toISOString().startsWith(`${date}T`)
  if (!isDate) throw new RangeError('a local date is not YYYY-MM-DD')
  return ms
}
