// Documents as every released version stored them, in the hands of this one.
import { describe, expect, it } from 'vitest'
import { flows } from '#flows/registry.ts'
import type { Chart } from '#src/chart/chart.ts'
import type { Desk } from '#src/chart/desk.ts'
import { resume } from '#src/conversation/run-flow.ts'
import { compareDoses } from '#src/domain/dose.ts'
import { localDateOf } from '#src/schedule/wall-time.ts'
import type { ClinicRig } from '#tests/support/clinic-rig.ts'
import { chartId, colleagues } from '#tests/support/joined-clinic.ts'
import type { Person } from '#tests/support/person.ts'
import { standingAt, toldNext, type Told } from '#tests/support/stored/live-on.ts'
import { documentOf, personOf, rigOf } from '#tests/support/stored/open-stored.ts'
import { storedFixtures, type StoredFixture } from '#tests/support/stored/stored-folder.ts'

const fixtures = storedFixtures()
const charts = fixtures.filter((fixture) => documentOf(fixture).kind === 'chart')
const desks = fixtures.filter((fixture) => documentOf(fixture).kind === 'desk')

function chartOf(fixture: StoredFixture): Chart {
  return documentOf(fixture) as Chart
}

const open = charts.filter((fixture) => chartOf(fixture).prompt !== null)
const joined = charts.filter((fixture) => chartOf(fixture).contact !== null)
const locked = charts.filter((fixture) => chartOf(fixture).lock !== null)
const training = charts.filter((fixture) => {
  const { standing, lock, isReachable } = chartOf(fixture)
  return standing === 'active' && lock === null && isReachable
})

/** A stored case with its person, everything before it read. */
function reopened(fixture: StoredFixture): { readonly rig: ClinicRig; readonly person: Person; readonly asks: () => string | null } {
  const rig = rigOf(fixture)
  const { id } = documentOf(fixture)
  const asks = (): string | null => {
    const top = rig.desk(id).conversations.at(-1)
    return top ? `${top.flow}.${top.state}` : null
  }
  return { rig, person: personOf(rig, documentOf(fixture)), asks }
}

/** The question that a stored conversation is asked as today. */
function questionToday(fixture: StoredFixture): { readonly asks: string | null; readonly isMoved: boolean } {
  const top = (documentOf(fixture) as Chart | Desk).conversations.at(-1)
  const flow = top && flows.get(top.flow)
  if (!top || !flow) return { asks: null, isMoved: true }
  const { conversation, isMoved } = resume(flow, top)
  return { asks: `${conversation.flow}.${conversation.state}`, isMoved }
}

function counts(fixture: StoredFixture, data: string): boolean {
  const { person } = reopened(fixture)
  person.pressData(data)
  return !person.read().includes('That button belongs to an earlier question.')
}

/** Everything that the client has answered in a session, open or waiting for its morning. */
function answersOf({ session, pending, outcomes }: Chart): unknown {
  return { session, sets: pending?.ladders.map((ladder) => ladder.sets), morning: pending?.morning, worst: pending?.worstSince, outcomes }
}

describe('the stored cases', () => {
  it('have questions of today whose old buttons still count', () => {
    const counting = [...open, ...desks].filter((fixture) => !questionToday(fixture).isMoved && fixture.buttons.some((data) => counts(fixture, data)))
    expect(counting.length).toBeGreaterThan(20)
  })

  it('are of charts at every question, locked and not, and of desks', () => {
    const counts = [charts, open, joined, locked, training, desks].map((some) => some.length > 0)
    expect(counts).toEqual([true, true, true, true, true, true])
  })
})

describe.each(open)('a client whose chart was stored as $name', (fixture) => {
  const today = questionToday(fixture)

  it('and who writes what nobody understands is asked the question again, or the nearest safe one, with every answer kept', () => {
    const { rig, person, asks } = reopened(fixture)
    person.write('xylophone teapot')
    expect([asks(), answersOf(rig.chart(chartId))]).toEqual([today.asks, answersOf(chartOf(fixture))])
    expect(rig.chart(chartId).prompt).not.toBeNull()
    expect(person.read()).not.toBe('')
  })

  it.each(fixture.buttons)('and who presses the old button %s is understood, or told that it is outdated', (data) => {
    const { rig, person, asks } = reopened(fixture)
    person.pressData(data)
    const read = person.read()
    if (today.isMoved) {
      expect([asks(), answersOf(rig.chart(chartId))]).toEqual([today.asks, answersOf(chartOf(fixture))])
      expect(read).toContain('That button belongs to an earlier question.')
    } else {
      // A button that is not offered any more changes nothing; every other one leads on.
      const isUnchanged = rig.chart(chartId).prompt?.number === chartOf(fixture).prompt?.number
      expect(read.includes('That button belongs to an earlier question.')).toBe(isUnchanged)
      expect(isUnchanged ? answersOf(rig.chart(chartId)) : null).toEqual(isUnchanged ? answersOf(chartOf(fixture)) : null)
    }
  })
})

describe.each(joined)('a client whose chart was stored as $name', (fixture) => {
  it('and who writes of an emergency is locked', () => {
    const { rig, person, asks } = reopened(fixture)
    person.write('half my face is drooping')
    expect(rig.chart(chartId).lock?.level).toBe('emergency')
    expect(asks()).toBe('called.called')
    expect(rig.chart(chartId).alerts.length).toBeGreaterThan(chartOf(fixture).alerts.length)
  })

  it('and who writes of an urgent sign is locked, or asked whether it is as usual where that is known', () => {
    const { rig, person, asks } = reopened(fixture)
    person.write('my arm went numb')
    expect(rig.chart(chartId).lock !== null || asks() === 'symptom.known').toBe(true)
  })

  it('and who asks for help or a reason gets them, and is asked the same again', () => {
    const { person, asks } = reopened(fixture)
    person.write('help')
    expect(person.read()).toContain('112')
    expect(asks()).toBe(questionToday(fixture).asks)
    person.write('why')
    expect(person.read()).not.toBe('')
    expect(asks()).toBe(questionToday(fixture).asks)
  })

  it('and who stops as often as it takes is left alone, save where a call for help is open', () => {
    const { rig, person, asks } = reopened(fixture)
    for (let times = 0; times < 4; times += 1) person.write('stop')
    expect([null, 'called.called']).toContain(asks())
    expect(rig.chart(chartId).session).toBeNull()
  })
})

describe.each(training)('a client who trains and whose chart was stored as $name', (fixture) => {
  it('is reminded again while two weeks pass, or has alarmed where a question about a sign was left open', () => {
    const { rig, asks } = reopened(fixture)
    const isAboutSign = ['symptom.which', 'symptom.confirm', 'symptom.known'].includes(String(questionToday(fixture).asks))
    rig.pass({ days: isAboutSign ? 1 : 14 })
    const { lastReminderOn, plan, lock } = rig.chart(chartId)
    const isReminded = lastReminderOn !== null && lastReminderOn > localDateOf(fixture.at + 7 * 24 * 3_600_000, plan?.zone ?? 'UTC')
    expect([isReminded, lock !== null]).toEqual([!isAboutSign, isAboutSign])
    expect(asks() !== null || isAboutSign).toBe(true)
  })
})

describe.each(charts)('a client whose chart was stored as $name', (fixture) => {
  it('is asked for nothing harder than the version of then would have asked for', () => {
    const told = toldNext(standingAt(chartOf(fixture), fixture.at))
    expect(told.filter((now) => isHarder(now, fixture.next ?? []))).toEqual([])
    expect(told.length).toBe(fixture.next?.length)
  })
})

function isHarder(now: Told, before: readonly Told[]): boolean {
  const then = before.find((one) => one.direction === now.direction)
  return then === undefined || now.rung > then.rung || (now.rung === then.rung && compareDoses(now.dose, then.dose) > 0)
}

describe.each(locked)('a lock stored as $name', (fixture) => {
  it('stays with its alerts for days while nobody clears it', () => {
    const { rig } = reopened(fixture)
    const { lock, alerts } = chartOf(fixture)
    rig.pass({ days: 2 })
    const chart = rig.chart(chartId)
    expect(chart.lock).toEqual(lock)
    expect(chart.alerts.map(({ id }) => id)).toEqual(expect.arrayContaining(alerts.map(({ id }) => id)))
    expect(chart.session).toBeNull()
    // The desk of then knew nothing of what is open; the first event of the chart says it.
    expect(rig.desk(colleagues.maren.desk).openMatters.map((open) => [open.chart, open.matters.lockedSince])).toEqual([[chartId, lock?.since]])
    expect(chart.colleagues.length).toBeGreaterThan(0)
  })

  it('is sent to the therapist again until it is acknowledged, which the old button does', () => {
    const { rig } = reopened(fixture)
    const { alerts, revision } = chartOf(fixture)
    const alert = alerts.find(({ level }) => level !== 'routine')
    if (alert === undefined) throw new Error('a lock without its alert')
    const maren = rig.person('maren')
    rig.pass({ hours: 6 })
    expect(maren.messages.length > 0 || alert.acknowledged !== null).toBe(true)
    maren.pressData(`m:${chartId}:${revision}:acknowledge:${alert.id}`)
    expect(rig.chart(chartId).alerts.find(({ id }) => id === alert.id)?.acknowledged).not.toBeNull()
  })

  it('is cleared by a therapist, and training is asked for again', () => {
    const { rig } = reopened(fixture)
    const by = { desk: colleagues.maren.desk, name: 'Maren Holt' }
    rig.tell(chartId, { kind: 'cleared', by, assessed: 'seen', reason: 'examined', dose: 'lowest' })
    rig.pass({ days: 7 })
    expect(rig.chart(chartId).lock).toBeNull()
    expect(rig.chart(chartId).lastReminderOn).not.toBe(chartOf(fixture).lastReminderOn)
  })
})

describe.each(desks)('a therapist whose desk was stored as $name', (fixture) => {
  const today = questionToday(fixture)
  const { data } = (documentOf(fixture) as Desk).conversations.at(-1) ?? { data: {} }

  function dataNow(rig: ClinicRig): unknown {
    return rig.desk(documentOf(fixture).id).conversations.at(-1)?.data
  }

  it('and who asks for help is asked the question again, or the nearest safe one, with every answer kept', () => {
    const { rig, person, asks } = reopened(fixture)
    person.write('help')
    expect([asks(), dataNow(rig)]).toEqual([today.asks, data])
    expect(person.read()).not.toBe('')
  })

  it.each(fixture.buttons)('and who presses the old button %s is understood, or told that it is outdated', (pressed) => {
    const { rig, person, asks } = reopened(fixture)
    person.pressData(pressed)
    const read = person.read()
    expect(read).not.toBe('')
    if (today.isMoved) {
      expect([asks(), dataNow(rig)]).toEqual([today.asks, data])
      expect(read).toContain('That button belongs to an earlier question.')
    } else {
      const isOutdated = read.includes('That button belongs to an earlier question.')
      expect(isOutdated ? dataNow(rig) : null).toEqual(isOutdated ? data : null)
    }
  })

  it('and who answers a question that has become another is asked that one, which the answer does not answer', () => {
    if (!today.isMoved) return
    const { rig, person, asks } = reopened(fixture)
    person.write('2')
    expect([asks(), dataNow(rig)]).toEqual([today.asks, data])
  })

  it('can leave, and begin another enrolment', () => {
    // Who they are is all that a desk cannot do without.
    if (today.asks?.startsWith('settling-in')) return
    const { person, asks } = reopened(fixture)
    person.write('stop', 'enrol')
    expect(asks()).toBe('enrolment.name')
  })
})
