// The laws of the hostile tests notice what they are there for.
import { describe, expect, it } from 'vitest'
import type { Chart } from '#src/chart/chart.ts'
import type { Desk } from '#src/chart/desk.ts'
import { inFirstSet, JoinedClinic } from '#tests/support/joined-clinic.ts'
import { lostBy } from './hostile/kept.ts'
import { allStarts } from './starts.ts'

function locked(): Chart {
  const clinic = new JoinedClinic()
  clinic.client.write('half my face is drooping')
  return clinic.chart()
}

function afterOneSet(): Chart {
  return inFirstSet().doSet().chart()
}

function afterWeek(): Chart {
  const clinic = new JoinedClinic()
  clinic.rig.moveTo('2026-02-02T08:00:00Z')
  clinic.client.write('2', '1', '3', 'look over my shoulder', '7')
  return clinic.chart()
}

const session = (chart: Chart, patch: object): Chart => ({ ...chart, session: chart.session && { ...chart.session, ...patch } })
const acted = { kind: 'act', by: { desk: 'desk-00000000aaaa', name: 'Maren Holt' }, act: 'acknowledge', about: 'a1', seenRevision: 1 } as never

describe('a chart', () => {
  it.each<[string, () => Chart, (chart: Chart) => Chart]>([
    ['an answer about a set', afterOneSet, (chart) => session(chart, { sets: [] })],
    ['the pain before a session', afterOneSet, (chart) => session(chart, { painNow: null })],
    ['a week’s pain', afterWeek, ({ outcomes, ...chart }) => ({ ...chart, outcomes: { ...outcomes, weeks: [] } })],
    ['an activity that was named', afterWeek, ({ outcomes, ...chart }) => ({ ...chart, outcomes: { ...outcomes, activities: [] } })],
    ['a score of an activity', afterWeek, ({ outcomes, ...chart }) => ({ ...chart, outcomes: { ...outcomes, rounds: [] } })],
    ['the consent', locked, (chart) => ({ ...chart, consentedAt: null })],
    ['the plan', locked, (chart) => ({ ...chart, plan: null })],
    ['how many alerts there were', locked, (chart) => ({ ...chart, alertsRaised: 0 })],
    ['an alert, without a therapist’s act', locked, (chart) => ({ ...chart, alerts: [] })],
    ['a lock, without a therapist’s clearing', locked, (chart) => ({ ...chart, lock: null })],
    ['a lock, without a therapist’s clearing', locked, (chart) => ({ ...chart, lock: chart.lock && { ...chart.lock, level: 'urgent' } })],
  ])('that has lost %s is noticed', (name, make, lose) => {
    const chart = make()
    expect(lostBy(chart, { ...chart }, null)).toEqual([])
    expect(lostBy(chart, lose(chart), null)).toContain(name)
  })

  it('may lose an alert, but no lock, by a therapist’s act', () => {
    const chart = locked()
    expect(lostBy(chart, { ...chart, alerts: [] }, acted)).toEqual([])
    expect(lostBy(chart, { ...chart, alerts: [], lock: null }, acted)).toEqual(['a lock, without a therapist’s clearing'])
  })
})

describe('a desk', () => {
  it('that has lost what was gathered, or a client, is noticed', () => {
    const desk = allStarts['enrolling with a band']().document as Desk
    const [top] = desk.conversations
    expect(lostBy(desk, { ...desk, conversations: [{ ...top!, data: { name: 'Noor Lindqvist' } }] }, null)).toEqual(['what was gathered'])
    expect(lostBy(desk, { ...desk, clients: [] }, null)).toEqual(['its client'])
  })

  it('may lose what was gathered by leaving it', () => {
    const desk = allStarts['enrolling with a band']().document as Desk
    expect(lostBy(desk, { ...desk, conversations: [] }, null)).toEqual([])
  })
})
