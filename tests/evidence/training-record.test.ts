// Sources: Foster C et al. 2001, J Strength Cond Res 15(1):109-115: load = session effort × minutes [found]
// https://forum.charliefrancis.com/t/how-do-you-monitor-and-plan-everthing/22982 ; monotony = mean daily load / SD, strain =
// weekly load × monotony [memory:high]; worked values [calc]. Lolli 2019, Br J Sports Med 53:921 [found]; Impellizzeri 2020,
// Int J Sports Physiol Perform 15(6):907-913 [found]; Impellizzeri 2021, Sports Med 51:581-592 [found]: against ratios of
// recent to past load. Adherence [convention]. ISO 8601 weeks [memory:high], examples [calc].
import { Temporal } from '@js-temporal/polyfill'
import fc from 'fast-check'
import { mean, sampleStandardDeviation, standardDeviation, sum } from 'simple-statistics'
import { describe, expect, it } from 'vitest'
import { brandAs, type LocalDate } from '#src/domain/identifier.ts'
import { adherenceOf, emptyWeek, sessionLoad, withLoad, type TrainingWeek } from '#src/rules/training-record.ts'
import { isoWeekOf } from '#src/schedule/iso-week.ts'

/** A week of daily loads as our record sums it; a rest day has no session. */
function weekOf(loads: readonly number[]): TrainingWeek {
  return loads.filter((load) => load > 0).reduce(withLoad, emptyWeek('2026-W48'))
}

describe('session load (Foster 2001)', () => {
  it.each([
    [4, 120],
    [5, 150],
  ])('30 minutes at %i are %i [calc]', (effort, load) => {
    expect(sessionLoad(effort, 30)).toBe(load)
  })

  it.each([
    [[120, 0, 150, 0, 120, 0, 0], 390],
    [[150, 90, 0, 150, 90, 180, 0], 660],
  ])('the week %j is %i [calc]', (loads, weekly) => {
    expect(weekOf(loads)).toEqual({ ...emptyWeek('2026-W48'), effortMinutes: weekly, rated: loads.filter((load) => load > 0).length })
  })

  it('sums as a library of statistics sums', () => {
    fc.assert(
      fc.property(fc.array(fc.record({ effort: fc.integer({ min: 1, max: 10 }), minutes: fc.integer({ min: 1, max: 120 }) })), (sessions) => {
        const loads = sessions.map(({ effort, minutes }) => sessionLoad(effort, minutes) ?? Number.NaN)
        expect(weekOf(loads).effortMinutes).toBe(sum(sessions.map(({ effort, minutes }) => effort * minutes)))
      }),
    )
  })
})

// Reference arithmetic only: these figures are shown to nobody.
describe('why monotony and strain are not shown', () => {
  it.each([
    [[120, 0, 150, 0, 120, 0, 0], 55.714, 70.204, 64.996, 0.794, 0.857, 309.5, 334.3],
    [[150, 90, 0, 150, 90, 180, 0], 94.286, 72.309, 66.945, 1.304, 1.408, 860.6, 929.5],
  ])('they depend on which deviation is taken, which the source leaves open: %j [calc]', (loads, average, sd, sdOfAll, low, high, strainLow, strainHigh) => {
    const days = [...loads]
    const weekly = weekOf(loads).effortMinutes
    const monotony = mean(days) / sampleStandardDeviation(days)
    const monotonyOfAll = mean(days) / standardDeviation(days)
    expect(mean(days)).toBeCloseTo(average, 3)
    expect([sampleStandardDeviation(days), standardDeviation(days)].map((value) => value.toFixed(3))).toEqual([sd, sdOfAll].map((value) => value.toFixed(3)))
    expect([monotony, monotonyOfAll].map((value) => value.toFixed(3))).toEqual([low, high].map((value) => value.toFixed(3)))
    expect([weekly * monotony, weekly * monotonyOfAll].map((value) => value.toFixed(1))).toEqual([strainLow, strainHigh].map((value) => value.toFixed(1)))
  })

  it('seven equal days have none: the deviation they divide by is nothing', () => {
    expect(sampleStandardDeviation(Array.from({ length: 7 }, () => 120))).toBe(0)
  })
})

describe('why no load of a week is divided by that of others (Lolli 2019; Impellizzeri 2020, 2021)', () => {
  const weeks = [300, 320, 340, 680]

  it('the same weeks give two ratios, with the last week in the mean and without it [calc]', () => {
    const last = weeks.at(-1) ?? 0
    expect([last / mean(weeks), last / mean(weeks.slice(0, -1))].map((ratio) => ratio.toFixed(3))).toEqual(['1.659', '2.125'])
  })

  it('with the last week in the mean it can never pass 4, however steep the rise [calc]', () => {
    fc.assert(fc.property(fc.array(fc.nat(5000), { minLength: 3, maxLength: 3 }), fc.integer({ min: 1, max: 5000 }), (before, last) => last / mean([...before, last]) <= 4))
  })
})

describe('adherence [convention]', () => {
  it.each([
    [9, 12, { share: 0.75, excess: 0 }],
    [14, 12, { share: 1, excess: 2 }],
    [0, 0, { share: null, excess: 0 }],
  ])('%i of %i is %j', (done, prescribed, expected) => {
    expect(adherenceOf(done, prescribed)).toEqual(expected)
  })
})

describe('ISO 8601 weeks', () => {
  it.each([
    ['2020-12-31', '2020-W53'],
    ['2021-01-03', '2020-W53'],
    ['2021-01-04', '2021-W01'],
    ['2024-12-30', '2025-W01'],
    ['2026-12-31', '2026-W53'],
    ['2027-01-01', '2026-W53'],
    ['2027-01-04', '2027-W01'],
  ])('%s lies in %s [calc]', (on, week) => {
    expect(isoWeekOf(brandAs<LocalDate>(on))).toBe(week)
  })

  it('are those of the proposed standard calendar of the language, over four centuries', () => {
    const first = Temporal.PlainDate.from('1900-01-01')
    fc.assert(
      fc.property(fc.nat(400 * 365), (days) => {
        const day = first.add({ days })
        const week = `${String(day.yearOfWeek)}-W${String(day.weekOfYear).padStart(2, '0')}`
        expect(isoWeekOf(brandAs<LocalDate>(day.toString()))).toBe(week)
      }),
      { numRuns: 2000 },
    )
  })
})
