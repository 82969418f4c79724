import { describe, expect, it } from 'vitest'
import { brandAs, type LocalDate } from '#src/domain/identifier.ts'
import { instantOnDate, isInQuiet, timeOutsideQuiet } from '#src/schedule/quiet-hours.ts'
import { readWallClock } from './wall-clock.ts'

const night = { from: '21:00', to: '08:00' }
const siesta = { from: '13:00', to: '15:00' }
const none = { from: '08:00', to: '08:00' }
const early = { from: '03:00', to: '06:00' }
const late = { from: '22:00', to: '23:10' }
const evening = { from: '21:00', to: '24:00' }

describe('quiet hours', () => {
  it.each([
    [night, '20:59', false],
    [night, '21:00', true],
    [night, '00:00', true],
    [night, '07:59', true],
    [night, '08:00', false],
    [siesta, '12:59', false],
    [siesta, '13:00', true],
    [siesta, '14:59', true],
    [siesta, '15:00', false],
    [none, '08:00', false],
    [none, '20:00', false],
    [evening, '23:59', true],
    [evening, '00:00', false],
  ])('%j hold %s: %s', (quiet, time, isQuiet) => {
    expect(isInQuiet(time, quiet)).toBe(isQuiet)
  })

  it.each([
    [night, '18:00', '18:00'],
    [night, '07:00', '08:00'],
    [night, '00:00', '08:00'],
    [night, '21:00', null],
    [night, '23:59', null],
    [siesta, '14:00', '15:00'],
    [evening, '22:00', null],
    [none, '08:00', '08:00'],
  ])('%j move %s to %s', (quiet, time, moved) => {
    expect(timeOutsideQuiet(time, quiet)).toBe(moved)
  })
})

describe('a time on the night the clocks change', () => {
  // Zone rules of tzdata 2025b: Berlin skips 02:00–03:00 on 2027-03-28, Nuuk from 23:00 to midnight on 2027-03-27, and
  // Apia has no 2011-12-30.
  it.each([
    ['shifts by the hour skipped', '2027-03-28', '02:30', { from: '04:00', to: '06:00' }, 'Europe/Berlin', '2027-03-28', '03:30'],
    ['waits for the end of quiet hours that it shifts into', '2027-03-28', '02:30', early, 'Europe/Berlin', '2027-03-28', '06:00'],
    ['stays on its date where it would shift past midnight', '2027-03-27', '23:30', siesta, 'America/Nuuk', '2027-03-27', '22:59'],
    ['stays out of quiet hours on the way back', '2027-03-27', '23:30', late, 'America/Nuuk', '2027-03-27', '21:59'],
    ['starts the day where midnight is skipped', '2027-04-30', '00:00', siesta, 'Africa/Cairo', '2027-04-30', '01:00'],
  ])('%s', (_, on, time, quiet, zone, shownOn, shownAt) => {
    const at = instantOnDate(brandAs<LocalDate>(on), time, quiet, zone)
    expect(readWallClock(at ?? 0, zone)).toEqual({ date: shownOn, time: shownAt })
  })

  it('is nowhere on a date that the zone never had', () => {
    expect(instantOnDate(brandAs<LocalDate>('2011-12-30'), '18:00', night, 'Pacific/Apia')).toBeNull()
  })
})
