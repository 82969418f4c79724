import { describe, expect, it } from 'vitest'
import { brandAs, type LocalDate } from '#src/domain/identifier.ts'
import { checkInAt } from '#src/schedule/check-in-at.ts'

describe('the next-morning check-in', () => {
  // tzdata 2025b: Berlin goes to summer time on 2027-03-28; Apia has no 2011-12-30.
  it.each([
    ['is at eight', '2027-01-05', 'Europe/Berlin', { from: '21:00', to: '08:00' }, '2027-01-05T07:00Z'],
    ['is at eight after the clocks went forward', '2027-03-28', 'Europe/Berlin', { from: '21:00', to: '07:00' }, '2027-03-28T06:00Z'],
    ['waits for the end of quiet hours', '2027-01-05', 'Europe/Berlin', { from: '22:00', to: '09:30' }, '2027-01-05T08:30Z'],
    ['comes before quiet hours past midnight', '2027-01-05', 'Europe/Berlin', { from: '06:00', to: '02:00' }, '2027-01-05T04:59Z'],
    ['follows the zone the client is in', '2027-01-05', 'America/New_York', { from: '21:00', to: '08:00' }, '2027-01-05T13:00Z'],
    ['is met on the next date that there is', '2011-12-30', 'Pacific/Apia', { from: '21:00', to: '08:00' }, '2011-12-30T18:00Z'],
  ])('%s', (_, on, zone, quiet, at) => {
    expect(checkInAt({ on: brandAs<LocalDate>(on), zone, quiet })).toBe(Date.parse(at))
  })
})
