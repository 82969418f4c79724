// Run as a process of its own, with TZ set: prints what the schedule room works out on several days taken for today.
import { DateTime, Settings } from 'luxon'
import { brandAs, type LocalDate } from '#src/domain/identifier.ts'
import { weekdays } from '#src/domain/plan.ts'
import { describeInstant } from '#src/schedule/describe-instant.ts'
import { nextReminderAt } from '#src/schedule/next-reminder.ts'
import { instantOf, localDateOf, wallTimeOf } from '#src/schedule/wall-time.ts'
import { gapRows, overlapRows } from '#tests/evidence/daylight-saving-table.ts'

const todays = ['2025-01-15', '2026-07-15', '2027-03-14', '2027-10-31', '2031-07-01']

const rows = [...gapRows, ...overlapRows]

function workOut(today: string): unknown {
  const now = Date.parse(`${today}T12:00:00Z`)
  Date.now = () => now
  Settings.now = () => now
  Settings.resetCaches()
  return rows.map(({ zone, date, time }) => {
    const at = instantOf(brandAs<LocalDate>(date), time, zone)
    const schedule = { days: weekdays, time, quiet: { from: '12:00', to: '13:00' } }
    return {
      at,
      date: localDateOf(at, zone),
      time: wallTimeOf(at, zone),
      words: describeInstant(at, zone, 'en'),
      next: nextReminderAt({ schedule, zone, after: at - 1, lastOn: null }),
    }
  })
}

/** What luxon chooses by itself: it shows that the days above do make a difference where one lets them. */
function leaveToLuxon(today: string): readonly number[] {
  workOut(today)
  return overlapRows.map(({ zone, date, time }) => DateTime.fromISO(`${date}T${time}`, { zone }).toMillis())
}

process.stdout.write(
  JSON.stringify({
    machineZone: Intl.DateTimeFormat().resolvedOptions().timeZone,
    machineNoon: new Date(2027, 0, 4, 12).toISOString(),
    byToday: todays.map(workOut),
    leftToLuxon: todays.map(leaveToLuxon),
  }),
)
