// Sources: RFC 5545, 3.3.5 [found]; zone rules as calculated with tzdata 2025b [calc]. Future rules can change by law: a
// row that fails after an update of the time zone data is to be looked up again, not bent.
import { IANAZone } from 'luxon'
import { describe, expect, it } from 'vitest'
import { brandAs, type LocalDate } from '#src/domain/identifier.ts'
import { weekdays } from '#src/domain/plan.ts'
import { nextReminderAt } from '#src/schedule/next-reminder.ts'
import { instantOf, wallTimeOf } from '#src/schedule/wall-time.ts'
import { gapRows, overlapRows, sixInTheEveningRows, standardRows } from './daylight-saving-table.ts'

const date = (text: string): LocalDate => brandAs<LocalDate>(text)

describe('RFC 5545, 3.3.5', () => {
  it.each(Object.entries(standardRows))('its own example of a time that is %s holds', (_, row) => {
    const at = instantOf(date(row.date), row.time, row.zone)
    expect({ at, shown: wallTimeOf(at, row.zone), offset: IANAZone.create(row.zone).offset(at) }).toEqual({
      at: Date.parse(row.utc),
      shown: row.shown,
      offset: row.offsetMinutes,
    })
  })
})

describe('a time that the clocks may skip', () => {
  it.each(gapRows)('$zone $date $time is met at $shown', (row) => {
    const at = instantOf(date(row.date), row.time, row.zone)
    expect({ at, shown: wallTimeOf(at, row.zone), offset: IANAZone.create(row.zone).offset(at) }).toEqual({
      at: Date.parse(row.utc),
      shown: row.shown,
      offset: row.offsetMinutes,
    })
  })
})

describe('a time that comes twice', () => {
  it.each(overlapRows)('$zone $date $time means the first, and reminds once', (row) => {
    const first = Date.parse(row.first)
    const second = Date.parse(row.second)
    const schedule = { days: weekdays, time: row.time, quiet: { from: '12:00', to: '13:00' } }
    const next = nextReminderAt({ schedule, zone: row.zone, after: first, lastOn: null })
    expect(instantOf(date(row.date), row.time, row.zone)).toBe(first)
    expect([first, second].map((at) => wallTimeOf(at, row.zone))).toEqual([row.time, row.time])
    expect(next).toBeGreaterThan(second)
  })
})

describe('a reminder at six in the evening', () => {
  it.each(sixInTheEveningRows)('stays at six in $zone on $date', (row) => {
    expect(instantOf(date(row.date), '18:00', row.zone)).toBe(Date.parse(row.utc))
  })
})
