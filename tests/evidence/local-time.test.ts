// A second opinion on every local time: Temporal as ECMA-262 proposes it, whose "compatible" reading of a skipped or
// repeated time is that of RFC 5545, 3.3.5 [found]. The single published rows are in daylight-saving.test.ts.
import { Temporal } from '@js-temporal/polyfill'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { brandAs, type LocalDate } from '#src/domain/identifier.ts'
import { weekdays } from '#src/domain/plan.ts'
import { addDays, daysBetween, instantOf, localDateOf, wallTimeOf, weekdayOf } from '#src/schedule/wall-time.ts'
import { zones } from '#tests/schedule/zones.ts'

const seed = 20261125
const numRuns = 4000

const anyZone = fc.constantFrom(...zones)
/** Days from 2000 to 2037, one in two near the turn of a month in spring or autumn, when clocks change. */
const anyDate = fc.oneof(
  fc.integer({ min: 0, max: 13_879 }).map((days) => Temporal.PlainDate.from('2000-01-01').add({ days })),
  fc.record({ year: fc.integer({ min: 2000, max: 2037 }), month: fc.constantFrom(3, 4, 9, 10, 11), day: fc.integer({ min: 1, max: 30 }) })
    .map((parts) => Temporal.PlainDate.from(parts)),
)
const anyMinute = fc.oneof(fc.integer({ min: 0, max: 4 * 60 }), fc.integer({ min: 0, max: 24 * 60 - 1 }))
const [first = 0, last = 0] = ['2000-01-01T00:00Z', '2037-12-31T00:00Z'].map((text) => Date.parse(text) / 1000)
const anyInstant = fc.integer({ min: first, max: last }).map((seconds) => seconds * 1000)

function wallTime(minute: number): string {
  return [Math.trunc(minute / 60), minute % 60].map((part) => String(part).padStart(2, '0')).join(':')
}

function ours(date: Temporal.PlainDate): LocalDate {
  return brandAs<LocalDate>(date.toString())
}

describe('a local time', () => {
  it('is the instant that Temporal makes of it, on any day, in any zone, skipped and repeated ones among them', () => {
    fc.assert(
      fc.property(anyZone, anyDate, anyMinute, (zone, date, minute) => {
        const expected = date.toZonedDateTime({ timeZone: zone, plainTime: wallTime(minute) }).epochMilliseconds
        expect(instantOf(ours(date), wallTime(minute), zone)).toBe(expected)
      }),
      { seed, numRuns },
    )
  })

  it('of an instant is the one that Temporal shows', () => {
    fc.assert(
      fc.property(anyZone, anyInstant, (zone, at) => {
        const shown = Temporal.Instant.fromEpochMilliseconds(at).toZonedDateTimeISO(zone)
        const expected = [shown.toPlainDate().toString(), wallTime(shown.hour * 60 + shown.minute)]
        expect([localDateOf(at, zone), wallTimeOf(at, zone)]).toEqual(expected)
      }),
      { seed, numRuns },
    )
  })
})

describe('the calendar', () => {
  it('counts days and weekdays as Temporal does', () => {
    fc.assert(
      fc.property(anyDate, fc.integer({ min: -4000, max: 4000 }), (date, days) => {
        const then = date.add({ days })
        expect(addDays(ours(date), days)).toBe(then.toString())
        expect(daysBetween(ours(date), ours(then))).toBe(date.until(then, { largestUnit: 'days' }).days)
        expect(weekdayOf(ours(date))).toBe(weekdays[date.dayOfWeek - 1])
      }),
      { seed, numRuns },
    )
  })
})
