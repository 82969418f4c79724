import fc from 'fast-check'
import { DateTime, IANAZone } from 'luxon'
import { describe, expect, it } from 'vitest'
import { brandAs, type LocalDate } from '#src/domain/identifier.ts'
import { addDays, daysBetween, instantOf, localDateOf, minutesOf, wallTimeOf, weekdayOf } from '#src/schedule/wall-time.ts'
import { minutesLived, readWallClock } from './wall-clock.ts'
import { zones } from './zones.ts'

const date = (text: string): LocalDate => brandAs<LocalDate>(text)
const anyZone = fc.constantFrom(...zones)
const anyInstant = fc.integer({ min: Date.UTC(2026, 0, 1), max: Date.UTC(2029, 0, 1) })

describe('an instant', () => {
  it('has the date and time that its zone shows', () => {
    fc.assert(
      fc.property(anyInstant, anyZone, (at, zone) => {
        expect({ date: localDateOf(at, zone), time: wallTimeOf(at, zone) }).toEqual(readWallClock(at, zone))
      }),
    )
  })

  it('is the first minute at which its date and time are shown', { timeout: 60_000 }, () => {
    fc.assert(
      fc.property(anyInstant, anyZone, (at, zone) => {
        const shown = readWallClock(at, zone)
        const first = minutesLived(shown.date, zone).find(({ time }) => time === shown.time)?.at
        expect(instantOf(shown.date, shown.time, zone)).toBe(first)
      }),
      { numRuns: 30 },
    )
  })

  it('of a time that comes twice is the earliest of those that luxon counts as possible', { timeout: 60_000 }, () => {
    const twice: string[] = []
    for (const { zone, on } of changesIn2027()) {
      for (const time of ['00:30', '01:45', '02:30', '23:30']) {
        const choices = DateTime.fromISO(`${on}T${time}`, { zone }).getPossibleOffsets()
        if (choices.length < 2) continue
        twice.push(zone)
        expect(instantOf(on, time, zone)).toBe(Math.min(...choices.map((choice) => choice.toMillis())))
      }
    }
    expect(new Set(twice).size).toBeGreaterThan(10)
  })
})

/** The dates around each change of a clock. */
function changesIn2027(): readonly { readonly zone: string; readonly on: LocalDate }[] {
  return zones.flatMap((zone) => {
    const offset = (on: LocalDate): number => IANAZone.create(zone).offset(Date.parse(`${on}T12:00:00Z`))
    const dates = Array.from({ length: 365 }, (_, days) => addDays(date('2027-01-01'), days))
    const changed = dates.filter((on) => offset(on) !== offset(addDays(on, 1)))
    return changed.flatMap((on) => [-1, 0, 1, 2].map((days) => ({ zone, on: addDays(on, days) })))
  })
}

describe('the end of a day', () => {
  it('is the first instant of the next', () => {
    const ends = zones.map((zone) => instantOf(date('2027-05-04'), '24:00', zone))
    expect(ends).toEqual(zones.map((zone) => minutesLived(date('2027-05-05'), zone)[0]?.at))
  })
})

describe('a calendar day', () => {
  // ISO 8601, from memory; the same days as in the table of ISO weeks: 2021-01-04 and 2027-01-04 begin a week.
  it.each([
    ['2020-12-31', 'thu'],
    ['2021-01-03', 'sun'],
    ['2021-01-04', 'mon'],
    ['2024-12-30', 'mon'],
    ['2026-12-31', 'thu'],
    ['2027-01-01', 'fri'],
    ['2027-01-04', 'mon'],
    ['1969-12-31', 'wed'],
  ])('%s is a %s', (text, weekday) => {
    expect(weekdayOf(date(text))).toBe(weekday)
  })

  it.each([
    ['2027-02-28', 1, '2027-03-01'],
    ['2028-02-28', 1, '2028-02-29'],
    ['2027-01-01', -1, '2026-12-31'],
    ['2027-03-27', 2, '2027-03-29'],
    ['2026-01-01', 1096, '2029-01-01'],
  ])('%s and %i days is %s', (from, days, to) => {
    expect(addDays(date(from), days)).toBe(to)
    expect(daysBetween(date(from), date(to))).toBe(days)
  })
})

describe('a mistake of ours', () => {
  it.each(['', 'local', 'Mars/Olympus', '+25:00'])('is thrown for the zone %j, never turned into no number', (zone) => {
    expect(() => localDateOf(0, zone)).toThrow(new RangeError('a time zone is not in the IANA database'))
    expect(() => instantOf(date('2027-01-04'), '18:00', zone)).toThrow(new RangeError('a time zone is not in the IANA database'))
  })

  it.each(['', '7:00', '24:01', '12:60', '18:00:00', '1800'])('is thrown for the time %j', (time) => {
    expect(() => minutesOf(time)).toThrow(new RangeError('a wall time is not HH:MM'))
  })

  it('is thrown for no date and for no instant', () => {
    expect(() => addDays(date('2027-02-30'), 1)).toThrow(new RangeError('a local date is not YYYY-MM-DD'))
    expect(() => addDays(date('tomorrow'), 1)).toThrow(new RangeError('a local date is not YYYY-MM-DD'))
    expect(() => localDateOf(Number.NaN, 'UTC')).toThrow(new RangeError('an instant is not a number of milliseconds'))
  })
})
