// A therapist has left: their account is a stranger's, and nobody's alert is left without a reader.
import { describe, expect, it } from 'vitest'
import { newChart } from '#src/chart/chart.ts'
import { clinicId } from '#src/chart/clinic.ts'
import type { Shown } from '#src/chart/event.ts'
import { brandAs, type DocumentId } from '#src/domain/identifier.ts'
import { chartId, colleagues, inFirstSet, JoinedClinic } from '#tests/support/joined-clinic.ts'

type Name = keyof typeof colleagues

function close(clinic: JoinedClinic, who: Name, to: Name): void {
  clinic.rig.submit(clinicId, { kind: 'close-desk', desk: colleagues[who].desk, to: colleagues[to].desk, reason: 'left the clinic' })
}

function locked(): JoinedClinic {
  const clinic = inFirstSet()
  clinic.client.write('my arm went numb')
  clinic.readAll()
  return clinic
}

const alert: Shown = { text: 'URGENT – Noor Lindqvist', buttons: [], urgency: 'alert', alert: { chart: chartId, id: 'a1' as never } }

describe('a therapist who has left', () => {
  it('is told so, and what they press or write afterwards is a stranger’s and changes nothing', () => {
    const clinic = locked()
    close(clinic, 'maren', 'saoirse')
    expect(clinic.maren.read()).toContain('Your place at this clinic has been closed.')
    const before = clinic.chart()
    clinic.maren.pressData(`m:${chartId}:0:acknowledge:a1`).pressData(`m:${chartId}:0:look:now`).write('clients')
    expect(clinic.chart()).toEqual(before)
    expect(clinic.maren.read()).not.toContain('Orla')
    expect(clinic.maren.messages.at(-1)?.text).toMatch(/^Hello\. I only talk with people who have an invitation\./)
  })

  it('answers no question that was open: a clearing half done clears nothing', () => {
    const clinic = locked()
    clinic.maren.press('Clear the lock …', 'Seen in person')
    close(clinic, 'maren', 'saoirse')
    clinic.maren.write('examined today')
    expect(clinic.rig.desk(colleagues.maren.desk).conversations).toEqual([])
    expect(clinic.chart().lock?.level).toBe('urgent')
  })

  it('does not come back by an invitation that was handed out before', () => {
    const clinic = new JoinedClinic()
    clinic.maren.write('invite')
    const [, token = ''] = /chat\.example\/(token-\d+)/.exec(clinic.maren.read()) ?? []
    expect(token).not.toBe('')
    close(clinic, 'maren', 'saoirse')
    clinic.maren.skip().open(token)
    expect(clinic.maren.read()).toContain('This invitation cannot be used.')
  })

  it('is not brought back by what was still on its way from their desk', () => {
    const clinic = new JoinedClinic()
    close(clinic, 'maren', 'saoirse')
    clinic.rig.tell(clinicId, { kind: 'settled-in', card: colleagues.maren })
    expect(clinic.rig.clinic().therapists.map(({ name }) => name)).toEqual(['Idris Vane', 'Saoirse Bly'])
  })

  it('stands in the record of the clinic and of every client, with who takes over and why', () => {
    const clinic = new JoinedClinic()
    close(clinic, 'maren', 'saoirse')
    const [maren, saoirse] = [colleagues.maren.desk, colleagues.saoirse.desk]
    expect(clinic.entries('desk-closed').map(({ data }) => data)).toEqual([
      { desk: maren, name: 'Maren Holt', to: saoirse, reason: 'left the clinic' },
      { to: saoirse, clients: [chartId] },
    ])
    expect(clinic.entries('staff-changed').map(({ data }) => data)).toEqual([{ left: maren, to: saoirse, as: 'therapist' }])
  })
})

describe('the clients of a therapist who has left', () => {
  it('have another therapist and are told so', () => {
    const clinic = new JoinedClinic()
    close(clinic, 'maren', 'saoirse')
    expect(clinic.chart().therapist?.name).toBe('Saoirse Bly')
    expect(clinic.rig.desk(colleagues.saoirse.desk).clients).toEqual([{ chart: chartId, name: 'Orla Tiernan' }])
    expect(clinic.client.read()).toBe('Saoirse Bly is your therapist here from now on. Your plan stays as it is.')
    expect(clinic.saoirse.read()).toContain('Maren Holt has left the clinic, and you are now the therapist of Orla Tiernan.')
  })

  it('keep their open alert, which comes to whoever takes over with its presses and is re-sent as it was', () => {
    const clinic = locked()
    close(clinic, 'maren', 'saoirse')
    expect(clinic.saoirse.read()).toMatch(/Maren Holt has left the clinic, and you take over\. This is still open:\n⚠ URGENT, same day – Orla Tiernan/)
    clinic.rig.pass({ hours: 4 })
    expect(clinic.saoirse.read()).toContain('URGENT, same day – Orla Tiernan (sending 2)')
    clinic.saoirse.press('Acknowledge')
    expect(clinic.chart().alerts[0]?.acknowledged?.by).toBe('Saoirse Bly')
    clinic.saoirse.press('Clear the lock …', 'Seen in person').write('examined').press('The usual restart')
    expect(clinic.chart().lock).toBeNull()
  })

  it('have the next sign read by whoever took over', () => {
    const clinic = inFirstSet()
    close(clinic, 'maren', 'saoirse')
    clinic.readAll()
    clinic.client.write('half my face is drooping')
    expect(clinic.saoirse.read()).toContain('EMERGENCY – Orla Tiernan')
    expect(clinic.maren.read()).toBe('')
  })

  it('are handed on with an alert that was on its way to the closed desk', () => {
    const clinic = new JoinedClinic()
    close(clinic, 'maren', 'saoirse')
    clinic.readAll()
    clinic.rig.tell(colleagues.maren.desk, { kind: 'show', shown: alert })
    expect(clinic.saoirse.read()).toBe('URGENT – Noor Lindqvist')
  })

  it('are handed on where the closed desk did not know them, with their first sign', () => {
    const clinic = new JoinedClinic()
    const noor = brandAs<DocumentId>('chart-00000000c12e')
    close(clinic, 'maren', 'saoirse')
    clinic.readAll()
    const orla = clinic.chart()
    clinic.rig.store({ ...orla, id: noor, therapist: colleagues.maren, contact: { channel: 'rig', address: 'noor' }, alerts: [] })
    clinic.rig.person('noor').write('my arm went numb')
    expect(clinic.saoirse.read()).toContain('URGENT, same day – Orla Tiernan')
    expect(clinic.rig.chart(noor).therapist?.name).toBe('Saoirse Bly')
  })

  it('are handed on again when whoever took over leaves too, also with what still comes to the first desk', () => {
    const clinic = locked()
    close(clinic, 'maren', 'saoirse')
    close(clinic, 'saoirse', 'idris')
    expect([clinic.chart().therapist?.name, clinic.chart().second]).toEqual(['Idris Vane', null])
    clinic.readAll()
    clinic.rig.tell(colleagues.maren.desk, { kind: 'show', shown: alert })
    expect(clinic.idris.read()).toBe('URGENT – Noor Lindqvist')
    clinic.rig.pass({ hours: 4 })
    expect(clinic.idris.read()).toContain('URGENT, same day – Orla Tiernan')
  })

  it('wait for their therapist’s word with whoever took over', () => {
    const clinic = new JoinedClinic()
    const [shown] = clinic.chart().plan?.ladders[0]?.shown ?? []
    const request = { ladder: 'extension', rung: 3, exercise: shown!, needsApproval: true, at: 0, isDeclined: false } as const
    clinic.rig.store({ ...clinic.chart(), requests: [{ ...request, id: 'rung-3-extension', kind: 'rung' }, { ...request, id: 'lowest-extension', kind: 'lowest-dose' }] })
    close(clinic, 'maren', 'saoirse')
    clinic.saoirse.press('Not yet', 'Go on from the lowest dose')
    expect(clinic.entries('act').map(({ by, data }) => [by, data.act])).toEqual([['Saoirse Bly', 'decline'], ['Saoirse Bly', 'resume']])
  })
})

describe('a colleague who has left', () => {
  it('is replaced as the second contact, and never by the therapist themself', () => {
    const [one, other] = [new JoinedClinic(), new JoinedClinic()]
    close(one, 'idris', 'saoirse')
    close(other, 'idris', 'maren')
    expect([one, other].map((clinic) => [clinic.chart().therapist?.name, clinic.chart().second?.name])).toEqual([
      ['Maren Holt', 'Saoirse Bly'],
      ['Maren Holt', undefined],
    ])
    expect(one.client.read()).toBe('')
  })

  it('is replaced where they were to stand in, and both are told', () => {
    const clinic = new JoinedClinic()
    clinic.maren.write('duty').press('I will be away').write('today', '2026-01-19').press('Idris Vane', 'Save')
    clinic.readAll()
    close(clinic, 'idris', 'saoirse')
    expect(clinic.maren.read()).toContain('Whoever was to stand in for you has left the clinic. Saoirse Bly stands in instead and has been told.')
    expect(clinic.saoirse.read()).toContain('Maren Holt is away from')
    clinic.client.write('half my face is drooping')
    expect(clinic.saoirse.read()).toContain('EMERGENCY – Orla Tiernan')
  })
})

describe('a desk', () => {
  it.each([
    ['whose successor works here no more', 'maren', 'saoirse', (clinic: JoinedClinic) => close(clinic, 'saoirse', 'idris')],
    ['that would take over itself', 'maren', 'maren', () => undefined],
  ] as const)('%s is not closed, so that no client is left without a therapist', (_what, who, to, before) => {
    const clinic = new JoinedClinic()
    before(clinic)
    close(clinic, who, to)
    expect(clinic.chart().therapist?.name).toBe('Maren Holt')
    expect(clinic.rig.desk(colleagues.maren.desk).contact).toEqual(clinic.maren.contact)
  })

  it('that a chart has nothing to do with leaves it blank when it is closed', () => {
    const clinic = new JoinedClinic()
    const unknown = brandAs<DocumentId>('chart-0000000000ff')
    clinic.rig.tell(unknown, { kind: 'colleague-left', desk: colleagues.maren.desk, to: colleagues.saoirse })
    expect(clinic.rig.chart(unknown)).toEqual(newChart(unknown))
  })
})
