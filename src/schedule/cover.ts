// Decides: whether somebody of the clinic is on duty, and from when.
// Source: our choice. A client is told of the out-of-hours number when nobody is, so that a doubt counts as nobody.
import type { Instant, LocalDate } from '#src/domain/identifier.ts'
import type { WallTime, Weekday } from '#src/domain/plan.ts'
import { addDays, instantOf, localDateOf, minutesOf, weekdayOf } from './wall-time.ts'

/** On each of `days`, from `from` up to `to`; past midnight where `to` is the earlier. Equal times are no cover. */
export interface Cover {
  readonly zone: string
  readonly days: readonly Weekday[]
  readonly from: WallTime
  readonly to: WallTime
  /** Off duty all the same; left out where they are not away. */
  readonly away?: Away
}

/** From `from` up to, but not at, `until`. */
export interface Away {
  readonly from: Instant
  readonly until: Instant
}

interface Duty {
  readonly startsAt: Instant
  readonly endsAt: Instant
}

export function isOnCover(cover: Cover, at: Instant): boolean {
  const duty = isAway(cover, at) ? null : firstDuty(cover, at, ({ endsAt }) => at < endsAt)
  return duty !== null && duty.startsAt <= at
}

export function isAway({ away }: Pick<Cover, 'away'>, at: Instant): boolean {
  return away !== undefined && away.from <= at && at < away.until
}

/** The first instant, `at` included, at which somebody is on duty; null where nobody ever is. */
export function nextCoverAt(cover: Cover, at: Instant): Instant | null {
  const next = nextOfHours(cover, at)
  const { away } = cover
  return next === null || away === undefined || !isAway(cover, next) ? next : nextOfHours(cover, away.until)
}

/** The first beginning of a duty after `at`, time away or not; null where there is none. */
export function nextBeginningAfter(cover: Cover, at: Instant): Instant | null {
  return firstDuty(cover, at, ({ startsAt }) => at < startsAt)?.startsAt ?? null
}

function nextOfHours(cover: Cover, at: Instant): Instant | null {
  const next = firstDuty(cover, at, ({ endsAt }) => at < endsAt)
  return next === null ? null : Math.max(next.startsAt, at)
}

/** From last night's on, for two weeks: a short duty may fall into an hour that the clocks skip. */
const longestSearchDays = 16

function firstDuty(cover: Cover, at: Instant, isMeant: (duty: Duty) => boolean): Duty | null {
  if (minutesOf(cover.from) === minutesOf(cover.to)) return null
  let date = addDays(localDateOf(at, cover.zone), -1)
  for (let days = 0; days < longestSearchDays; days += 1, date = addDays(date, 1)) {
    const duty = cover.days.includes(weekdayOf(date)) ? dutyOn(date, cover) : null
    if (duty !== null && duty.startsAt < duty.endsAt && isMeant(duty)) return duty
  }
  return null
}

function dutyOn(date: LocalDate, { zone, from, to }: Cover): Duty {
  const lastDate = minutesOf(to) > minutesOf(from) ? date : addDays(date, 1)
  return { startsAt: instantOf(date, from, zone), endsAt: instantOf(lastDate, to, zone) }
}
