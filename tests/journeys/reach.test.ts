// A client or a therapist whom the network cannot reach.
import { describe, expect, it } from 'vitest'
import { JoinedClinic } from '#tests/support/joined-clinic.ts'

describe('a client who has blocked the chat', () => {
  it('gets nothing more after the first message that does not arrive, and the therapist is told once', () => {
    const clinic = new JoinedClinic()
    clinic.client.block()
    clinic.rig.moveTo('2026-01-16T20:00:00Z')
    const [told, ...daily] = clinic.maren.read().split('\n---\n')
    expect(told).toBe('Orla Tiernan cannot be reached on this network. Reminders have stopped. Please use another way.\n[Acknowledge]')
    expect(daily.filter((message) => !/^Open with one client:\n• Orla Tiernan: one note for your attention .*; cannot be reached here/.test(message))).toEqual([])
    expect(clinic.entries('reminder-skipped').length).toBeGreaterThan(3)
    clinic.maren.press('Acknowledge')
    expect(clinic.chart().alerts).toEqual([])
  })

  it('is reminded again once the network says that they are back', () => {
    const clinic = new JoinedClinic()
    clinic.client.block()
    clinic.rig.moveTo('2026-01-06T12:00:00Z')
    clinic.maren.skip()
    clinic.client.unblock()
    expect(clinic.maren.read()).toBe('Orla Tiernan can be reached again.')
    clinic.rig.moveTo('2026-01-07T18:00:00Z')
    expect(clinic.client.read()).toContain('It is time for your neck session.')
  })

  it('is taken to be back when they write, whatever the network said', () => {
    const clinic = new JoinedClinic()
    clinic.client.block()
    clinic.rig.moveTo('2026-01-06T12:00:00Z')
    clinic.client.isBlocking = false
    clinic.maren.skip()
    clinic.client.write('hello')
    expect(clinic.maren.read()).toBe('Orla Tiernan can be reached again.')
    clinic.rig.moveTo('2026-01-07T18:00:00Z')
    expect(clinic.asks).toBe('session.ready')
  })

  it('in an emergency is shown to every therapist at once', () => {
    const clinic = new JoinedClinic()
    clinic.client.block().write('half my face is drooping')
    const told = [clinic.maren, clinic.idris, clinic.saoirse].map((person) => person.messages.find(({ text }) => text.includes('cannot be reached')))
    expect(told.map((message) => message?.urgency)).toEqual(['alert', 'alert', 'alert'])
    expect(clinic.maren.read()).toContain('⚠ EMERGENCY – Orla Tiernan')
  })
})

describe('a therapist who cannot be reached', () => {
  it('is stood in for at once by everybody else, with the same alert and the same presses', () => {
    const clinic = new JoinedClinic()
    clinic.maren.block()
    clinic.client.write('my arm went numb')
    expect(clinic.idris.read()).toMatchInlineSnapshot(`
      "Maren Holt could not be reached. This comes to you instead:
      ⚠ URGENT, same day – Orla Tiernan
      New or spreading numbness or tingling of an arm or hand
      Client’s words: “my arm went numb”
      Taken for a sign: “arm went numb”
      When: Mon 5 Jan, 12:00 (Europe/Dublin); where Maren Holt is Mon 5 Jan, 12:00 (Europe/Dublin)
      Client was told:
      Stop training now and put everything down.
      Your therapist has been told. If nobody has been in touch by Mon 5 Jan, 16:00, call 020 913 0104.
      If you get sudden weakness, a numb face, trouble with sight, speech or swallowing, or the worst headache of your life: call 112 at once.
      Client’s numbers: emergency 112, out of hours 020 913 0104
      Also sent to: everybody of the clinic
      [Acknowledge] [I have spoken with the client] [Clear the lock …]"
    `)
    expect(clinic.saoirse.read()).toContain('Maren Holt could not be reached. This comes to you instead:')
    clinic.idris.press('Acknowledge')
    expect(clinic.entries('alert-acknowledged').map((entry) => entry.by)).toEqual(['Idris Vane'])
  })

  it('does not bring others what is no alert', () => {
    const clinic = new JoinedClinic()
    clinic.maren.block()
    clinic.client.write('I have a fever')
    expect([clinic.idris.read(), clinic.saoirse.read()]).toEqual(['', ''])
  })
})

describe('whoever has no invitation', () => {
  it('is told how to get one, whatever they send, and nothing of it is stored', () => {
    const { rig } = new JoinedClinic()
    const entriesBefore = rig.entries.length
    const stranger = rig.person('stranger').write('my arm went numb').pressData('p:1:yes').sendPicture()
    expect(stranger.messages).toHaveLength(3)
    expect(new Set(stranger.messages.map(({ text }) => text)).size).toBe(1)
    expect(stranger.read()).toMatch(/^Hello\. I only talk with people who have an invitation\./)
    expect(rig.entries).toHaveLength(entriesBefore)
    expect(JSON.stringify(rig.clinic())).not.toContain('stranger')
  })

  it('presses nothing on somebody’s matter', () => {
    const clinic = new JoinedClinic()
    clinic.client.write('my arm went numb')
    const { data } = clinic.maren.button('Acknowledge')
    clinic.rig.person('stranger').pressData(data)
    clinic.client.pressData(data)
    expect(clinic.chart().alerts.map(({ acknowledged }) => acknowledged)).toEqual([null])
  })
})

describe('what is no text', () => {
  it('is answered with the emergency number, and the question is asked again', () => {
    const clinic = new JoinedClinic()
    clinic.rig.moveTo('2026-01-05T18:00:00Z')
    clinic.begin().client.skip().sendPicture()
    expect(clinic.client.read()).toMatch(/^I can only read words here, no pictures or voice notes\. Please type it\. In an emergency call 112\./)
    expect(clinic.asks).toBe('session.set')
  })
})
