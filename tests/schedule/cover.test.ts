import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { weekdays } from '#src/domain/plan.ts'
import { isOnCover, nextBeginningAfter, nextCoverAt, type Cover } from '#src/schedule/cover.ts'
import { zones } from './zones.ts'

const office: Cover = { zone: 'Europe/Dublin', days: ['mon', 'tue', 'wed', 'thu', 'fri'], from: '09:00', to: '17:00' }
const nights: Cover = { zone: 'Europe/Dublin', days: ['fri'], from: '22:00', to: '06:00' }
const roundTheClock: Cover = { zone: 'Europe/Dublin', days: weekdays, from: '00:00', to: '24:00' }
const equalTimes: Cover = { zone: 'Europe/Dublin', days: weekdays, from: '00:00', to: '00:00' }
// tzdata 2025b: Berlin skips 02:00–03:00 on Sunday 2027-03-28 and repeats it on 2027-10-31.
const shortNight: Cover = { zone: 'Europe/Berlin', days: ['sun'], from: '02:00', to: '03:00' }
const skippedStart: Cover = { ...shortNight, from: '02:30', to: '05:00' }
const awayFor = (from: string, until: string): Cover['away'] & object => ({ from: Date.parse(from), until: Date.parse(until) })
const holiday: Cover = { ...office, away: awayFor('2027-01-06T00:00Z', '2027-01-18T00:00Z') }
const halfDay: Cover = { ...office, away: awayFor('2027-01-04T12:00Z', '2027-01-04T13:30Z') }

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
  ['is on before the time away', holiday, '2027-01-05T16:59Z', true, '2027-01-05T16:59Z'],
  ['is off from the last duty before the time away to the first after it', holiday, '2027-01-05T17:00Z', false, '2027-01-18T09:00Z'],
  ['is off while away', holiday, '2027-01-07T12:00Z', false, '2027-01-18T09:00Z'],
  ['is on again when back', holiday, '2027-01-18T09:00Z', true, '2027-01-18T09:00Z'],
  ['is off for the part of a duty spent away', halfDay, '2027-01-04T12:00Z', false, '2027-01-04T13:30Z'],
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
      away: fc
        .record({ from: fc.integer({ min: Date.UTC(2026, 0, 1), max: Date.UTC(2029, 0, 1) }), hours: fc.integer({ min: 1, max: 600 }) })
        .map(({ from, hours }) => ({ from, until: from + hours * 3_600_000 })),
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

  it.each([
    ['before a duty is that duty', office, '2027-01-04T08:59Z', '2027-01-04T09:00Z'],
    ['at the beginning of a duty is the next one', office, '2027-01-04T09:00Z', '2027-01-05T09:00Z'],
    ['within a duty is the next one', office, '2027-01-08T12:00Z', '2027-01-11T09:00Z'],
    ['is the same while away', holiday, '2027-01-07T12:00Z', '2027-01-08T09:00Z'],
    ['is none where nobody ever is on duty', equalTimes, '2027-01-04T00:00Z', null],
  ] as const)('a beginning %s', (_, cover, at, next) => {
    expect(nextBeginningAfter(cover, Date.parse(at))).toBe(next === null ? null : Date.parse(next))
  })
})
