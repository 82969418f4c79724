// Alerts that do not get through: to a therapist, to several, to all of them, or not yet.
import { describe, expect, it } from 'vitest'
import { chartId, colleagues, JoinedClinic } from '#tests/support/joined-clinic.ts'
import type { Person, Shown } from '#tests/support/person.ts'

type Name = keyof typeof colleagues

/** The newest alert on somebody's screen has not gone out for a minute. */
function delay(clinic: JoinedClinic, name: Name): void {
  submit(clinic, name, 'delayed')
}

function submit(clinic: JoinedClinic, name: Name, kind: 'delayed' | 'refused'): void {
  const person = clinic[name]
  const newest = person.messages.findLast(({ urgency }) => urgency === 'alert')
  if (!newest) throw new Error(`${name} was sent no alert`)
  const effect = effectOf(newest, person)
  clinic.rig.submit(colleagues[name].desk, kind === 'delayed' ? { kind, effect } : { kind: 'undeliverable', effect, reason: 'refused' })
}

function effectOf({ effect, text, buttons, urgency }: Shown, { contact }: Person) {
  return { kind: 'send', id: effect, to: contact, message: { text, buttons: buttons.map((button) => [button]) }, urgency } as const
}

function alertsOf(person: Person): readonly string[] {
  return person.messages.filter(({ text }) => text.includes('⚠')).map(({ text }) => text.split('\n').slice(0, 2).join(' | '))
}

const late = (name: string): string => `${name} may not have received this yet. It comes to you as well: | ⚠ URGENT, same day – Orla Tiernan`
const instead = (name: string): string => `${name} could not be reached. This comes to you instead: | ⚠ URGENT, same day – Orla Tiernan`
const first = '⚠ URGENT, same day – Orla Tiernan | New or spreading numbness or tingling of an arm or hand'
const nobodyReached = 'I cannot reach anybody at your clinic right now.'

describe('an alert that does not reach the therapist', () => {
  it('and then not a colleague either comes to the third, each once, without going round', () => {
    const clinic = new JoinedClinic()
    clinic.maren.block()
    clinic.idris.block()
    clinic.client.write('my arm went numb')
    expect([alertsOf(clinic.maren), alertsOf(clinic.idris), alertsOf(clinic.saoirse)]).toEqual([[], [], [instead('Maren Holt')]])
    expect(clinic.entries('alert-unseen').map(({ data }) => [data.desk, data.reason])).toEqual([
      [colleagues.maren.desk, 'unreachable'],
      [colleagues.idris.desk, 'unreachable'],
    ])
    expect(clinic.client.read()).not.toContain(nobodyReached)
  })

  it('nor anybody else is told to the client at once, with the number to call, and recorded', () => {
    const clinic = new JoinedClinic()
    for (const person of [clinic.maren, clinic.idris, clinic.saoirse]) person.block()
    clinic.client.skip().write('my arm went numb')
    const told = clinic.client.read().split('\n---\n')
    expect(told.some((text) => text === `${nobodyReached} Do not wait for them. Call 020 913 0104 now. If it gets worse, call 112 at once.`)).toBe(true)
    expect(clinic.entries('nobody-reached').map(({ data }) => data.level)).toEqual(['urgent'])
    const [alert] = clinic.chart().alerts
    expect([alert?.hasReachedNobody, alert?.told?.includes(nobodyReached)]).toEqual([true, true])
  })

  it('in an emergency sends the client to the emergency number, as an alert', () => {
    const clinic = new JoinedClinic()
    for (const person of [clinic.maren, clinic.idris, clinic.saoirse]) person.block()
    clinic.client.skip().write('half my face is drooping')
    const message = clinic.client.messages.find(({ text }) => text.includes(nobodyReached))
    expect([message?.text.includes('call 112 now'), message?.urgency]).toEqual([true, 'alert'])
  })

  it('is sent again to all of them as before, and tells the client no second time', () => {
    const clinic = new JoinedClinic()
    for (const person of [clinic.maren, clinic.idris, clinic.saoirse]) person.block()
    clinic.client.write('my arm went numb')
    for (const person of [clinic.maren, clinic.idris, clinic.saoirse]) person.isBlocking = false
    clinic.client.skip()
    clinic.rig.pass({ hours: 6 })
    expect(clinic.client.read()).toBe('')
    expect([clinic.maren, clinic.idris, clinic.saoirse].map((person) => alertsOf(person).length)).toEqual([3, 2, 1])
  })

  it('is no matter any more once somebody has acknowledged it', () => {
    const clinic = new JoinedClinic()
    clinic.client.write('my arm went numb')
    clinic.maren.press('Acknowledge')
    delay(clinic, 'maren')
    expect([alertsOf(clinic.idris), alertsOf(clinic.saoirse)]).toEqual([[], []])
  })

  it('because the network refuses the message goes to everybody else, and does not count as unreachable', () => {
    const clinic = new JoinedClinic()
    clinic.client.write('my arm went numb')
    submit(clinic, 'maren', 'refused')
    expect([alertsOf(clinic.idris), alertsOf(clinic.saoirse)]).toEqual([[instead('Maren Holt')], [instead('Maren Holt')]])
    expect(clinic.rig.desk(colleagues.maren.desk).isReachable).toBe(true)
  })

  it('marks the therapist as unreachable until they write', () => {
    const clinic = new JoinedClinic()
    clinic.maren.block()
    clinic.client.write('my arm went numb')
    const blocked = clinic.rig.desk(colleagues.maren.desk).isReachable
    clinic.maren.isBlocking = false
    clinic.maren.write('hello')
    expect([blocked, clinic.rig.desk(colleagues.maren.desk).isReachable]).toEqual([false, true])
  })
})

describe('an alert whose network has not taken it for a minute', () => {
  it('goes to the second contact at once, and from there to everybody', () => {
    const clinic = new JoinedClinic()
    clinic.client.write('my arm went numb')
    delay(clinic, 'maren')
    const afterFirst = [alertsOf(clinic.idris), alertsOf(clinic.saoirse)]
    delay(clinic, 'idris')
    expect(afterFirst).toEqual([[late('Maren Holt')], []])
    expect([alertsOf(clinic.maren), alertsOf(clinic.idris), alertsOf(clinic.saoirse)]).toEqual([[first], [late('Maren Holt')], [late('Idris Vane')]])
  })

  it('and for none of them is told to the client', () => {
    const clinic = new JoinedClinic()
    clinic.client.skip().write('my arm went numb')
    for (const name of ['maren', 'idris', 'saoirse'] as const) delay(clinic, name)
    expect(clinic.client.read()).toContain(nobodyReached)
  })

  it('goes to everybody where there is no second contact', () => {
    const clinic = new JoinedClinic({ plan: { ...new JoinedClinic().chart().plan!, contacts: { ...new JoinedClinic().chart().plan!.contacts, second: null } } })
    clinic.rig.store({ ...clinic.chart(), second: null })
    clinic.client.write('my arm went numb')
    delay(clinic, 'maren')
    expect([alertsOf(clinic.idris), alertsOf(clinic.saoirse)]).toEqual([[late('Maren Holt')], [late('Maren Holt')]])
  })

  it('told twice is passed on once', () => {
    const clinic = new JoinedClinic()
    clinic.client.write('my arm went numb')
    delay(clinic, 'maren')
    delay(clinic, 'maren')
    delay(clinic, 'maren')
    expect([alertsOf(clinic.idris).length, alertsOf(clinic.saoirse).length]).toEqual([1, 1])
  })
})

describe('what a client is to do in an alert', () => {
  it('that has not gone out for a minute is told to every therapist, who is to phone', () => {
    const clinic = new JoinedClinic()
    clinic.client.write('half my face is drooping')
    clinic.readAll()
    clinic.rig.submit(chartId, { kind: 'delayed', effect: effectOf(clinic.client.messages.at(-1)!, clinic.client) })
    for (const person of [clinic.maren, clinic.idris, clinic.saoirse]) {
      expect(person.read()).toBe('⚠ Orla Tiernan may not have received what was sent about the alert: the network has not taken it for a minute. Please phone the client now.\n[Acknowledge]')
    }
    expect(clinic.entries('client-message-delayed')).toHaveLength(1)
  })
})

describe('a fault in our own step', () => {
  it('is told to everybody else once, where the therapist cannot be reached and the next one neither', () => {
    const clinic = new JoinedClinic()
    clinic.maren.block()
    clinic.idris.block()
    const shown = { text: 'A message could not be handled.', buttons: [], urgency: 'alert', alert: null } as const
    clinic.rig.tell(colleagues.maren.desk, { kind: 'show', shown })
    expect(clinic.saoirse.read()).toBe('Maren Holt could not be reached. This comes to you instead:\nA message could not be handled.')
  })
})
