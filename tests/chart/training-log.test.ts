import { describe, expect, it } from 'vitest'
import { flows } from '#flows/registry.ts'
import { newChart } from '#src/chart/chart.ts'
import { describeTraining } from '#src/chart/client/describe-training.ts'
import { Draft } from '#src/chart/draft.ts'
import { noTraining, withDone, withPrescribed, withRestOrdered, type TrainingLog } from '#src/chart/training-log.ts'
import { brandAs, type DocumentId, type EventId, type LocalDate } from '#src/domain/identifier.ts'
import { emptyWeek, type TrainingWeek } from '#src/rules/training-record.ts'
import { addDays } from '#src/schedule/wall-time.ts'
import { content, extensionPlan } from '#tests/support/sample-chain.ts'

const date = (text: string): LocalDate => brandAs<LocalDate>(text)
const monday = date('2026-01-05')

describe('the log', () => {
  it('keeps sixteen weeks, the newest last, however long somebody trains', () => {
    const log = Array.from({ length: 120 }, (_, day) => addDays(monday, day)).reduce(withPrescribed, noTraining)
    const ids = log.weeks.map(({ week }) => week)
    expect(ids).toEqual(Array.from({ length: 16 }, (_, index) => `2026-W${String(index + 4).padStart(2, '0')}`))
  })

  it('puts a day that comes late into its own week', () => {
    const log = withDone(withPrescribed(noTraining, date('2026-01-12')), date('2026-01-11'), [])
    expect(log.weeks).toEqual([{ ...emptyWeek('2026-W02'), done: 1 }, { ...emptyWeek('2026-W03'), prescribed: 1 }])
  })

  it.each([
    ['of a day that was asked for takes it back', [withPrescribed, withRestOrdered], 0],
    ['twice takes it back once', [withPrescribed, withRestOrdered, withRestOrdered], 0],
    ['of a day that was never asked for changes nothing', [withRestOrdered], undefined],
    ['after a session leaves it asked for', [withPrescribed, (log: TrainingLog) => withDone(log, monday, []), withRestOrdered], 1],
    ['taken back by a new day on the same date asks once', [withPrescribed, withRestOrdered, withPrescribed], 1],
  ])('a rest %s', (_, steps, prescribed) => {
    const log = steps.reduce<TrainingLog>((before, step) => step(before, monday), noTraining)
    expect(log.weeks[0]?.prescribed).toBe(prescribed)
  })

  it('a rest of another day leaves the last one asked for', () => {
    const log = withPrescribed(noTraining, monday)
    expect(withRestOrdered(log, addDays(monday, 1))).toBe(log)
  })
})

describe('what a therapist reads', () => {
  /** On Wednesday of the fifth ISO week of 2026. */
  function lines(weeks: readonly TrainingWeek[]): readonly string[] {
    const chart = { ...newChart(brandAs<DocumentId>('chart-00000000c11e')), plan: extensionPlan, training: { ...noTraining, weeks } }
    const event = { kind: 'wake', id: brandAs<EventId>('event') } as const
    return describeTraining(new Draft(chart, event, Date.parse('2026-01-28T12:00:00Z'), { content, flows }))
  }

  it('is nothing before anything was asked for', () => {
    expect(lines([])).toEqual([])
    expect(lines([emptyWeek('2026-W05')])).toEqual([])
  })

  it('is four weeks, the present one first, without older ones', () => {
    const week = { prescribed: 3, sets: 9, tensionSeconds: 450, effortMinutes: 240 }
    expect(
      lines([
        { ...emptyWeek('2026-W01'), ...week, done: 3, rated: 3 },
        { ...emptyWeek('2026-W02'), ...week, done: 3, rated: 3 },
        { ...emptyWeek('2026-W03'), ...week, done: 5, rated: 4 },
        { ...emptyWeek('2026-W04'), ...week, done: 0, sets: 0, tensionSeconds: 0, effortMinutes: 0 },
        { ...emptyWeek('2026-W05'), ...week, done: 1, sets: 1, tensionSeconds: 89, effortMinutes: 0 },
      ]),
    ).toEqual([
      'Last 4 weeks: 7 of 12 sessions (58 %), 2 more than asked for',
      '2026-W05: 1 of 3 sessions, 1 set, 1 min under tension, effort × minutes – (told for 0 of 1)',
      '2026-W04: 0 of 3 sessions, 0 sets, 0 min under tension, effort × minutes –',
      '2026-W03: 5 of 3 sessions, 9 sets, 8 min under tension, effort × minutes 240 (told for 4 of 5)',
      '2026-W02: 3 of 3 sessions, 9 sets, 8 min under tension, effort × minutes 240',
    ])
  })

  it('gives no percentage where nothing was prescribed', () => {
    expect(lines([{ ...emptyWeek('2026-W05'), done: 2, sets: 6, tensionSeconds: 150, effortMinutes: 90, rated: 2 }])[0]).toBe(
      'Last 4 weeks: 0 of 0 sessions, 2 more than asked for',
    )
  })
})
