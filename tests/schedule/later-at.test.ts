import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { laterAt } from '#src/schedule/later-at.ts'
import { isInQuiet } from '#src/schedule/quiet-hours.ts'
import { minutesLived, readWallClock } from './wall-clock.ts'
import { zones } from './zones.ts'

const night = { from: '21:00', to: '08:00' }
const siesta = { from: '13:00', to: '15:00' }
const early = { from: '01:00', to: '02:30' }
const lateNight = { from: '23:59', to: '06:00' }

describe('"later"', () => {
  // Dublin keeps UTC in winter; Berlin shows 02:00–03:00 twice on 2027-10-31 and skips it on 2027-03-28 (tzdata 2025b).
  it.each([
    ['is in an hour', '2027-01-04T18:00Z', night, 'Europe/Dublin', '2027-01-04T19:00Z'],
    ['is the last minute before quiet hours', '2027-01-04T19:59Z', night, 'Europe/Dublin', '2027-01-04T20:59Z'],
    ['is not today where quiet hours begin', '2027-01-04T20:00Z', night, 'Europe/Dublin', null],
    ['waits for quiet hours that end today', '2027-01-04T06:10Z', night, 'Europe/Dublin', '2027-01-04T08:00Z'],
    ['never passes midnight', '2027-01-04T23:00Z', { from: '02:00', to: '03:00' }, 'Europe/Dublin', null],
    ['may be the last minute of the day', '2027-01-04T22:58Z', lateNight, 'Europe/Dublin', '2027-01-04T23:58Z'],
    ['is an hour of lived time where the clocks go back', '2027-11-07T05:30Z', siesta, 'America/New_York', '2027-11-07T06:30Z'],
    ['waits in the second of two equal hours', '2027-10-31T00:10Z', early, 'Europe/Berlin', '2027-10-31T01:30Z'],
    ['waits for an end that the clocks skip', '2027-03-27T23:30Z', early, 'Europe/Berlin', '2027-03-28T01:00Z'],
  ])('%s', (_, pressed, quiet, zone, later) => {
    expect(laterAt(Date.parse(pressed), zone, quiet)).toBe(later === null ? null : Date.parse(later))
  })

  it('is the first minute of the day, an hour on, that is not quiet', { timeout: 60_000 }, () => {
    const twoDigits = (value: number): string => String(value).padStart(2, '0')
    const anyTime = fc
      .tuple(fc.integer({ min: 0, max: 23 }), fc.integer({ min: 0, max: 59 }))
      .map(([hours, minutes]) => `${twoDigits(hours)}:${twoDigits(minutes)}`)
    const anyMinute = fc.integer({ min: 0, max: 3 * 366 * 1440 }).map((minutes) => Date.UTC(2026, 0, 1) + minutes * 60_000)
    fc.assert(
      fc.property(anyMinute, fc.constantFrom(...zones), anyTime, anyTime, (pressed, zone, from, to) => {
        const today = minutesLived(readWallClock(pressed, zone).date, zone)
        const first = today.find(({ at, time }) => at >= pressed + 3_600_000 && !isInQuiet(time, { from, to }))
        expect(laterAt(pressed, zone, { from, to })).toBe(first?.at ?? null)
      }),
      { numRuns: 60 },
    )
  })
})
