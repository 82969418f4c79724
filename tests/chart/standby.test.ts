// Who is sent an alert at once, and whether a client is told that somebody is on duty.
import { describe, expect, it } from 'vitest'
import { newChart } from '#src/chart/chart.ts'
import type { Away, DeskCard } from '#src/chart/desk-card.ts'
import { standbyFor } from '#src/chart/client/standby.ts'
import { brandAs, type DocumentId } from '#src/domain/identifier.ts'
import { weekdays } from '#src/domain/plan.ts'

const id = (name: string): DocumentId => brandAs<DocumentId>(`desk-${name}`)
const officeDays = ['mon', 'tue', 'wed', 'thu', 'fri'] as const

const maren: DeskCard = { desk: id('maren'), name: 'Maren Holt', zone: 'Europe/Dublin', cover: { days: officeDays, from: '08:00', to: '18:00' } }
/** Early and late, every day; in Dublin 05:00 to 20:00 in winter. */
const idris: DeskCard = { desk: id('idris'), name: 'Idris Vane', zone: 'Europe/Athens', cover: { days: weekdays, from: '07:00', to: '22:00' } }
const saoirse: DeskCard = { desk: id('saoirse'), name: 'Saoirse Bly', zone: 'Europe/Dublin', cover: { days: ['sat'], from: '18:00', to: '23:00' } }

function away(from: string, until: string, standIn: DeskCard | null): Away {
  return { from: Date.parse(from), until: Date.parse(until), standIn: standIn?.desk ?? null }
}
const thatWeek = ['2026-01-05T00:00:00Z', '2026-01-12T00:00:00Z'] as const

const rows: readonly {
  readonly when: string
  readonly at: string
  readonly therapist?: DeskCard
  readonly second?: DeskCard | null
  readonly urgent: readonly [readers: string, isAnybodyOnDuty: boolean]
  readonly emergency: readonly [readers: string, isAnybodyOnDuty: boolean]
  readonly next: string | null
}[] = [
  { when: 'a weekday, the therapist on duty', at: '2026-01-07T12:00:00Z', urgent: ['Maren Holt', true], emergency: ['Maren Holt', true], next: '2026-01-07T12:00:00Z' },
  { when: 'the last minute of duty', at: '2026-01-07T17:59:00Z', urgent: ['Maren Holt', true], emergency: ['Maren Holt', true], next: '2026-01-07T17:59:00Z' },
  { when: 'a weekday evening, the second on duty', at: '2026-01-07T18:00:00Z', urgent: ['Maren Holt, Idris Vane', true], emergency: ['Maren Holt, Idris Vane', true], next: '2026-01-07T18:00:00Z' },
  { when: 'a weekday night, nobody on duty', at: '2026-01-07T23:00:00Z', urgent: ['Maren Holt', false], emergency: ['everybody', false], next: '2026-01-08T05:00:00Z' },
  { when: 'Sunday, the second on duty', at: '2026-01-11T12:00:00Z', urgent: ['Maren Holt, Idris Vane', true], emergency: ['Maren Holt, Idris Vane', true], next: '2026-01-11T12:00:00Z' },
  { when: 'Sunday, no second contact', at: '2026-01-11T12:00:00Z', second: null, urgent: ['Maren Holt', false], emergency: ['everybody', true], next: '2026-01-12T08:00:00Z' },
  { when: 'Saturday night, only a colleague on duty', at: '2026-01-10T21:00:00Z', urgent: ['Maren Holt', false], emergency: ['everybody', true], next: '2026-01-11T05:00:00Z' },
  { when: 'away, the stand-in on duty', at: '2026-01-07T12:00:00Z', therapist: { ...maren, away: away(...thatWeek, idris) }, second: null, urgent: ['Maren Holt, Idris Vane', true], emergency: ['Maren Holt, Idris Vane', true], next: '2026-01-07T12:00:00Z' },
  { when: 'away, the stand-in off duty, the second on duty', at: '2026-01-07T12:00:00Z', therapist: { ...maren, away: away(...thatWeek, saoirse) }, urgent: ['Maren Holt, Saoirse Bly, Idris Vane', true], emergency: ['Maren Holt, Saoirse Bly, Idris Vane', true], next: '2026-01-07T12:00:00Z' },
  { when: 'away, stand-in and second off duty', at: '2026-01-07T23:00:00Z', therapist: { ...maren, away: away(...thatWeek, saoirse) }, urgent: ['Maren Holt, Saoirse Bly', false], emergency: ['everybody', false], next: '2026-01-08T05:00:00Z' },
  { when: 'away, the stand-in is the second and off duty', at: '2026-01-07T23:00:00Z', therapist: { ...maren, away: away(...thatWeek, idris) }, urgent: ['Maren Holt, Idris Vane', false], emergency: ['everybody', false], next: '2026-01-08T05:00:00Z' },
  { when: 'away, nobody stands in, the second on duty', at: '2026-01-07T12:00:00Z', therapist: { ...maren, away: away(...thatWeek, null) }, urgent: ['Maren Holt, Idris Vane', true], emergency: ['Maren Holt, Idris Vane', true], next: '2026-01-07T12:00:00Z' },
  { when: 'away, nobody stands in and no second', at: '2026-01-07T12:00:00Z', therapist: { ...maren, away: away(...thatWeek, null) }, second: null, urgent: ['Maren Holt', false], emergency: ['everybody', true], next: '2026-01-12T08:00:00Z' },
  { when: 'the day before the time away', at: '2026-01-02T12:00:00Z', therapist: { ...maren, away: away(...thatWeek, saoirse) }, urgent: ['Maren Holt', true], emergency: ['Maren Holt', true], next: '2026-01-02T12:00:00Z' },
  { when: 'the first minute back', at: '2026-01-12T08:00:00Z', therapist: { ...maren, away: away(...thatWeek, saoirse) }, urgent: ['Maren Holt', true], emergency: ['Maren Holt', true], next: '2026-01-12T08:00:00Z' },
]

function chartOf(therapist: DeskCard, second: DeskCard | null) {
  return { ...newChart(brandAs<DocumentId>('chart-00000000c11e')), therapist, second, colleagues: [therapist, idris, saoirse] }
}

describe('whoever is sent an alert at once', () => {
  it.each(rows)('$when', ({ at, therapist = maren, second = idris, urgent, emergency, next }) => {
    const found = (['urgent', 'emergency'] as const).map((level) => {
      const { readers, isForAll, isAnybodyOnDuty } = standbyFor(chartOf(therapist, second), level, Date.parse(at))
      return [isForAll ? 'everybody' : readers.map(({ name }) => name).join(', '), isAnybodyOnDuty]
    })
    const { nextOnDutyAt } = standbyFor(chartOf(therapist, second), 'urgent', Date.parse(at))
    expect(found).toEqual([urgent, emergency])
    expect(nextOnDutyAt).toBe(next === null ? null : Date.parse(next))
  })

  it('is nobody where a chart has no therapist yet', () => {
    expect(standbyFor(newChart(brandAs<DocumentId>('chart-00000000c11e')), 'urgent', Date.parse('2026-01-07T12:00:00Z'))).toEqual({
      readers: [],
      isForAll: false,
      isAnybodyOnDuty: false,
      nextOnDutyAt: null,
    })
  })
})
