import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { weekdays } from '#src/domain/plan.ts'
import { isOnCover, nextCoverAt, type Cover } from '#src/schedule/cover.ts'
import { zones } from './zones.ts'

const office: Cover = { zone: 'Europe/Dublin', days: ['mon', 'tue', 'wed', 'thu', 'fri'], from: '09:00', to: '17:00' }
const nights: Cover = { zone: 'Europe/Dublin', days: ['fri'], from: '22:00', to: '06:00' }
const roundTheClock: Cover = { zone: 'Europe/Dublin', days: weekdays, from: '00:00', to: '24:00' }
const equalTimes: Cover = { zone: 'Europe/Dublin', days: weekdays, from: '00:00', to: '00:00' }
// tzdata 2025b: Berlin skips 02:00–03:00 on Sunday 2027-03-28 and repeats it on 2027-10-31.
const shortNight: Cover = { zone: 'Europe/Berlin', days: ['sun'], from: '02:00', to: '03:00' }
const skippedStart: Cover = { ...shortNight, from: '02:30', to: '05:00' }

// 2027-01-04 is a Monday.
const cases: readonly (readonly [string, Cover, string, boolean, string | null])[] = [
  ['is off just before it begins', office, '2027-01-04T08:59:59Z', false, '2027-01-04T09:00Z'],
  ['is on from its first instant', office, '2027-01-04T09:00Z', true, '2027-01-04T09:00Z'],
  ['is on to its last second', office, '2027-01-04T16:59:59Z', true, '2027-01-04T16:59:59Z'],
  ['is off at its end', office, '2027-01-04T17:00Z', false, '2027-01-05T09:00Z'],
  ['is off over the weekend', office, '2027-01-08T17:00Z', false, '2027-01-11T09:00Z'],
  ['goes on past midnight on the day it began', nights, '2027-01-09T05:59Z', true, '2027-01-09T05:59Z'],
  ['does not begin in the morning of its day', nights, '2027-01-08T05:00Z', false, '2027-01-08T22:00Z'],
  ['comes again after a week', nights, '2027-01-09T06:00Z', false, '2027-01-15T22:00Z'],
  ['is always on round the clock', roundTheClock, '2027-01-04T00:00Z', true, '2027-01-04T00:00Z'],
  ['is never on between equal times', equalTimes, '2027-01-04T00:00Z', false, null],
  ['is never on without days', { ...office, days: [] }, '2027-01-04T09:00Z', false, null],
  ['waits a week where the clocks skip all of it', shortNight, '2027-03-27T12:00Z', false, '2027-04-04T00:00Z'],
  ['begins once where its hour comes twice', shortNight, '2027-10-31T00:30Z', true, '2027-10-31T00:30Z'],
  ['begins after a gap as reminders do', skippedStart, '2027-03-28T01:29Z', false, '2027-03-28T01:30Z'],
]

describe('cover', () => {
  it.each(cases)('%s', (_, cover, at, isOn, next) => {
    const asked = Date.parse(at)
    expect([isOnCover(cover, asked), nextCoverAt(cover, asked)]).toEqual([isOn, next === null ? null : Date.parse(next)])
  })

  it('is on when it next begins, and off a moment before unless it is on already', () => {
    const anyCover = fc.record({
      zone: fc.constantFrom(...zones),
      days: fc.uniqueArray(fc.constantFrom(...weekdays), { minLength: 1 }),
      from: fc.constantFrom('00:00', '02:30', '09:00', '22:00'),
      to: fc.constantFrom('01:00', '06:00', '17:00', '24:00'),
    })
    fc.assert(
      fc.property(anyCover, fc.integer({ min: Date.UTC(2026, 0, 1), max: Date.UTC(2029, 0, 1) }), (cover, at) => {
        const next = nextCoverAt(cover, at) ?? Number.NaN
        expect(isOnCover(cover, next)).toBe(true)
        expect(next === at || !isOnCover(cover, next - 1)).toBe(true)
        expect(isOnCover(cover, at)).toBe(next === at)
      }),
    )
  })
})
