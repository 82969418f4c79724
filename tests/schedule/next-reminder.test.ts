import fc from 'fast-check'
import { Settings } from 'luxon'
import { afterEach, describe, expect, it } from 'vitest'
import { brandAs, type Instant, type LocalDate } from '#src/domain/identifier.ts'
import { weekdays, type Schedule } from '#src/domain/plan.ts'
import { nextReminderAt, reminderTime } from '#src/schedule/next-reminder.ts'
import { isInQuiet } from '#src/schedule/quiet-hours.ts'
import { addDays, daysBetween, weekdayOf } from '#src/schedule/wall-time.ts'
import { minutesLived, readWallClock, type Reading } from './wall-clock.ts'
import { zones } from './zones.ts'

const date = (text: string): LocalDate => brandAs<LocalDate>(text)
const night = { from: '21:00', to: '08:00' }
const siesta = { from: '13:00', to: '15:00' }
const zone = 'Europe/Dublin'
const threeDays: Schedule = { days: ['mon', 'wed', 'fri'], time: '18:00', quiet: night }
const everyDay = (time: string, quiet = siesta): Schedule => ({ days: weekdays, time, quiet })

/** The next reminder of `schedule` in Dublin, which keeps UTC in winter. */
function nextInDublin(schedule: Schedule, after: string, lastOn: string | null): Instant | null {
  return nextReminderAt({ schedule, zone, after: Date.parse(after), lastOn: lastOn === null ? null : date(lastOn) })
}

/** Reminders, each worked out after the one before was sent. */
function instantsOf(schedule: Schedule, zone: string, from: Instant, until: Instant): readonly Instant[] {
  const sent: Instant[] = []
  for (let after = from; ; ) {
    const last = sent.at(-1)
    const at = nextReminderAt({ schedule, zone, after, lastOn: last === undefined ? null : readWallClock(last, zone).date })
    if (at === null || at >= until) return sent
    sent.push(at)
    after = at
  }
}

/** The same, as a client's clock shows them. */
function remind(schedule: Schedule, zone: string, from: Instant, until: Instant): readonly Reading[] {
  return instantsOf(schedule, zone, from, until).map((at) => readWallClock(at, zone))
}

describe('over three years, in every zone', () => {
  const first = date('2026-01-01')
  const last = date('2028-12-31')
  const dates = Array.from({ length: daysBetween(first, last) + 1 }, (_, days) => addDays(first, days))
  const schedules: readonly Schedule[] = [
    everyDay('00:00'),
    everyDay('02:30'),
    everyDay('23:30'),
    everyDay('01:30', { from: '02:00', to: '06:00' }),
    everyDay('07:15', night),
    threeDays,
  ]

  describe.each(zones)('%s', (zone) => {
    it.each(schedules)('$days at $time reminds once on each date, on that date, never in quiet hours', { timeout: 60_000 }, (schedule) => {
      const sent = remind(schedule, zone, Date.UTC(2025, 11, 29), Date.UTC(2029, 0, 4))
      const shown = sent.filter((reading) => first <= reading.date && reading.date <= last)

      expect(shown.map((reading) => reading.date)).toEqual(dates.filter((on) => schedule.days.includes(weekdayOf(on))))
      expect(shown.filter((reading) => isInQuiet(reading.time, schedule.quiet))).toEqual([])
      const asked = reminderTime(schedule)
      const moved = shown.filter((reading) => reading.time !== asked)
      expect(moved.filter((reading) => minutesLived(reading.date, zone).some(({ time }) => time === asked))).toEqual([])
    })
  })
})

describe('whatever today is', () => {
  const realNow = Date.now
  afterEach(() => {
    Date.now = realNow
    Settings.now = () => realNow()
    Settings.resetCaches()
  })

  const nights = ['Europe/Berlin', 'America/New_York', 'America/Santiago', 'Africa/Cairo', 'Australia/Lord_Howe']
  const todays = ['2025-01-15', '2027-07-15', '2028-03-26']
  // github.com/moment/luxon/issues/1089: luxon picks a time that comes twice by the offset of today.
  it.each(nights)('reminders at 02:30 and at 00:00 in %s are the same over three years', { timeout: 120_000 }, (zone) => {
    const byToday = todays.map((today) => {
      const now = Date.parse(`${today}T12:00:00Z`)
      Date.now = () => now
      Settings.now = () => now
      Settings.resetCaches()
      return ['02:30', '00:00'].map((time) => instantsOf(everyDay(time), zone, Date.UTC(2026, 0, 1), Date.UTC(2029, 0, 1)))
    })

    expect(byToday[0]?.map((instants) => instants.length)).toEqual([1096, 1096])
    expect(byToday).toEqual(todays.map(() => byToday[0]))
  })
})

describe('the next reminder', () => {
  // 2027-01-04 is a Monday.
  it.each([
    ['is later today', '2027-01-04T17:59Z', null, '2027-01-04T18:00Z'],
    ['is strictly after the instant asked about', '2027-01-04T18:00Z', null, '2027-01-06T18:00Z'],
    ['skips the days without a session', '2027-01-08T18:00Z', null, '2027-01-11T18:00Z'],
    ['passes over the date that had one', '2027-01-04T12:00Z', '2027-01-04', '2027-01-06T18:00Z'],
    ['comes again after an old one', '2027-01-04T12:00Z', '2026-11-30', '2027-01-04T18:00Z'],
    ['comes after the weekend when the Friday had one', '2027-01-08T12:00Z', '2027-01-08', '2027-01-11T18:00Z'],
  ])('%s', (_, after, lastOn, due) => {
    expect(nextInDublin(threeDays, after, lastOn)).toBe(Date.parse(due))
  })

  it('moves to the end of quiet hours that end the same day', () => {
    expect(nextInDublin(everyDay('06:30', night), '2027-01-04T00:00Z', null)).toBe(Date.parse('2027-01-04T08:00Z'))
  })

  it.each([
    ['has no days', { ...threeDays, days: [] }],
    ['asks for a time in quiet hours that end the next day', { ...threeDays, time: '22:00' }],
  ])('is none where the schedule %s', (_, schedule) => {
    expect(nextInDublin(schedule, '2027-01-04T00:00Z', null)).toBeNull()
  })

  it('leaves out a date that the zone never had, even weekly', () => {
    // tzdata: Apia went from Thursday 2011-12-29 to Saturday 2011-12-31.
    const fridays: Schedule = { ...threeDays, days: ['fri'] }
    const sent = remind(fridays, 'Pacific/Apia', Date.parse('2011-12-20T00:00Z'), Date.parse('2012-01-10T00:00Z'))
    expect(sent).toEqual([
      { date: '2011-12-23', time: '18:00' },
      { date: '2012-01-06', time: '18:00' },
    ])
  })
})

describe('a clock that jumps', () => {
  it('by a day ahead repeats nothing and goes on', () => {
    const sent = remind(everyDay('18:00'), zone, Date.parse('2027-01-05T12:00Z'), Date.parse('2027-01-06T00:00Z'))
    const after = nextInDublin(everyDay('18:00'), '2027-01-06T19:00Z', '2027-01-05')
    expect(sent).toEqual([{ date: '2027-01-05', time: '18:00' }])
    expect(after).toBe(Date.parse('2027-01-07T18:00Z'))
  })

  it('back by a day does not remind a second time of the dates that had theirs', () => {
    const at = nextInDublin(everyDay('18:00'), '2027-01-04T12:00Z', '2027-01-05')
    expect(at).toBe(Date.parse('2027-01-06T18:00Z'))
  })

  it.each([
    ['2027-01-06', '2027-01-07'],
    ['2027-01-07', '2027-01-04'],
  ])('back, with a last reminder on %s, reminds on %s: no place is three dates ahead', (lastOn, expected) => {
    expect(nextInDublin(everyDay('18:00'), '2027-01-04T12:00Z', lastOn)).toBe(Date.parse(`${expected}T18:00Z`))
  })

  it('back does not remind twice of the very date that had its reminder', () => {
    const fridays: Schedule = { ...threeDays, days: ['fri'] }
    expect(nextInDublin(fridays, '2027-01-04T12:00Z', '2027-01-08')).toBe(Date.parse('2027-01-15T18:00Z'))
  })

  it('back from years ahead does not silence the reminders for years', () => {
    const at = nextInDublin(everyDay('18:00'), '2027-01-04T12:00Z', '2037-01-05')
    expect(at).toBe(Date.parse('2027-01-04T18:00Z'))
  })
})

describe('a client who moves', () => {
  const quarterMs = 15 * 60_000
  const anyMove = fc.record({ zone: fc.constantFrom(...zones), quarters: fc.integer({ min: 1, max: 6 * 96 }) })

  // The only way back to the afternoon of an earlier date: Kiritimati is 25 hours ahead of Niue (tzdata 2025b).
  it('back over the date line is not reminded again of the dates that had their reminder', () => {
    const schedule = everyDay('18:00')
    const arrived = Date.parse('2027-01-05T00:00Z')
    const sentAt = nextReminderAt({ schedule, zone: 'Pacific/Kiritimati', after: arrived, lastOn: date('2027-01-04') })
    expect(readWallClock(sentAt ?? 0, 'Pacific/Kiritimati')).toEqual({ date: '2027-01-05', time: '18:00' })
    expect(readWallClock(sentAt ?? 0, 'Pacific/Niue')).toEqual({ date: '2027-01-04', time: '17:00' })

    const next = nextReminderAt({ schedule, zone: 'Pacific/Niue', after: sentAt ?? 0, lastOn: date('2027-01-05') })

    expect(readWallClock(next ?? 0, 'Pacific/Niue')).toEqual({ date: '2027-01-06', time: '18:00' })
  })

  it('is reminded at six wherever they are, at most once a date, and of no date before the last', { timeout: 60_000 }, () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 1000 * 96 }), fc.array(anyMove, { minLength: 1, maxLength: 6 }), (start, moves) => {
        const from = Date.UTC(2026, 0, 1) + start * quarterMs
        const got: { at: Instant; on: LocalDate }[] = []
        const expected: typeof got = []
        let [at, arrived]: [Instant, Instant] = [from, from]
        for (const { zone, quarters } of moves) {
          const leaves = arrived + quarters * quarterMs
          for (;;) {
            const due = nextReminderAt({ schedule: everyDay('18:00'), zone, after: at, lastOn: got.at(-1)?.on ?? null })
            if (due === null || due > leaves) break
            got.push({ at: due, on: readWallClock(due, zone).date })
            at = due
          }
          // Every zone's offset is a whole number of quarters of an hour, and no zone skips six in the evening.
          for (let quarter = arrived + quarterMs; quarter <= leaves; quarter += quarterMs) {
            const shown = readWallClock(quarter, zone)
            const lastOn = expected.at(-1)?.on
            const isNew = lastOn === undefined || shown.date > lastOn
            if (shown.time === '18:00' && isNew) expected.push({ at: quarter, on: shown.date })
          }
          ;[at, arrived] = [leaves, leaves]
        }
        expect(got).toEqual(expected)
      }),
      { numRuns: 60 },
    )
  })

  // No two zones are further apart than Kiritimati and Niue, 25 hours (tzdata 2025b); a clock change adds one at most.
  it('waits for the next one no longer than a day more than usual, wherever they go and at whatever hour', { timeout: 60_000 }, () => {
    const hourMs = 3_600_000
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 1000 * 96 }), fc.tuple(anyMove, anyMove), (start, moves) => {
        const from = Date.UTC(2026, 0, 1) + start * quarterMs
        const got: { at: Instant; on: LocalDate }[] = []
        let [at, leaves]: [Instant, Instant] = [from, from]
        for (const { zone, quarters } of moves) {
          leaves += quarters * quarterMs
          for (;;) {
            const due = nextReminderAt({ schedule: everyDay('18:00'), zone, after: at, lastOn: got.at(-1)?.on ?? null })
            if (due === null || due > leaves) break
            got.push({ at: due, on: readWallClock(due, zone).date })
            at = due
          }
          at = leaves
        }
        const ends = [from, ...got.map((one) => one.at), leaves]
        const waits = ends.slice(1).map((end, index) => end - ends[index]!)
        expect(waits.filter((wait) => wait > (24 + 25 + 1) * hourMs)).toEqual([])
        expect(new Set(got.map(({ on }) => on)).size).toBe(got.length)
      }),
      { numRuns: 100 },
    )
  })
})
