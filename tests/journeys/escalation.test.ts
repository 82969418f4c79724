// An alert until somebody has spoken with the client, and the way back into training.
import { describe, expect, it } from 'vitest'
import { colleagues, JoinedClinic } from '#tests/support/joined-clinic.ts'
import type { Person } from '#tests/support/person.ts'

/** Wednesday, 18:00, after one clean session on Monday, at the hold of 6 seconds. */
function onWednesday(): JoinedClinic {
  const clinic = new JoinedClinic()
  clinic.rig.moveTo('2026-01-05T18:00:00Z')
  clinic.train().rig.moveTo('2026-01-06T08:00:00Z')
  clinic.client.write('1')
  clinic.rig.moveTo('2026-01-07T18:00:00Z')
  clinic.begin().readAll()
  return clinic
}

function emergency(): JoinedClinic {
  const clinic = onWednesday()
  clinic.client.write('half my face is drooping')
  return clinic
}

function urgent(): JoinedClinic {
  const clinic = onWednesday()
  clinic.client.write('my arm went numb')
  return clinic
}

/** The minutes after 18:00 at which somebody was sent the alert. */
function sentAt(person: Person): readonly number[] {
  const start = Date.parse('2026-01-07T18:00:00Z')
  return person.messages.filter(({ at, text }) => at >= start && /EMERGENCY|URGENT/.test(text)).map(({ at }) => (at - start) / 60_000)
}

describe('an alert that nobody acknowledges', () => {
  it('of an emergency is sent again after 10 minutes, then to the second contact, then to all, then every 30', () => {
    const clinic = emergency()
    clinic.rig.pass({ minutes: 125 })
    expect([sentAt(clinic.maren), sentAt(clinic.idris), sentAt(clinic.saoirse)]).toEqual([
      [0, 10, 20, 30, 60, 90, 120],
      [20, 30, 60, 90, 120],
      [30, 60, 90, 120],
    ])
  })

  it('of an urgent sign is sent again after 2 hours in the same order, through the night', () => {
    const clinic = urgent()
    clinic.rig.pass({ hours: 8 })
    expect([sentAt(clinic.maren), sentAt(clinic.idris), sentAt(clinic.saoirse)]).toEqual([
      [0, 120, 240, 360, 390, 420, 450, 480],
      [240, 360, 390, 420, 450, 480],
      [360, 390, 420, 450, 480],
    ])
  })

  it('says how often it was sent', () => {
    const clinic = emergency()
    clinic.rig.pass({ minutes: 20 })
    expect(clinic.idris.read()).toContain('⚠ EMERGENCY – Orla Tiernan (sending 3)')
  })

  it('sent to all names whose clock it shows', () => {
    const clinic = emergency()
    clinic.rig.pass({ minutes: 30 })
    expect(clinic.saoirse.read()).toContain('When: Wed 7 Jan, 18:00 (Europe/Dublin); where Maren Holt is Wed 7 Jan, 18:00 (Europe/Dublin)')
  })

  it('is sent once, and goes on from there, when the machine was off for a day', () => {
    const clinic = emergency()
    clinic.rig.sleepUntil('2026-01-08T18:00:00Z')
    expect(sentAt(clinic.maren)).toEqual([0, 1440])
    clinic.rig.pass({ minutes: 10 })
    expect(sentAt(clinic.idris)).toEqual([1450])
  })
})

describe('an acknowledged alert', () => {
  it('is not sent again, says how long is left, and opens again after an hour without a contact', () => {
    const clinic = emergency()
    clinic.rig.pass({ minutes: 5 })
    clinic.maren.skip().press('Acknowledge')
    expect(clinic.maren.read()).toMatchInlineSnapshot(`"Orla Tiernan: acknowledged, no more re-sending. Please reach the client within 1 hour and then press "I have spoken with the client", or the alert opens again."`)
    clinic.rig.moveTo('2026-01-07T19:04:59Z')
    expect(clinic.maren.read()).toBe('')
    clinic.rig.moveTo('2026-01-07T19:05:00Z')
    expect(clinic.maren.read()).toContain('⚠ EMERGENCY – Orla Tiernan (sending 2)')
    clinic.rig.pass({ minutes: 10 })
    expect(clinic.idris.read()).toContain('⚠ EMERGENCY – Orla Tiernan (sending 3)')
  })

  it('of an urgent sign opens again after 4 hours', () => {
    const clinic = urgent()
    clinic.maren.press('Acknowledge').skip()
    clinic.rig.pass({ hours: 3, minutes: 59 })
    expect(clinic.maren.read()).toBe('')
    clinic.rig.pass({ minutes: 1 })
    expect(clinic.maren.read()).toContain('⚠ URGENT, same day – Orla Tiernan (sending 2)')
  })

  it('is acknowledged once, whoever presses again', () => {
    const clinic = emergency()
    clinic.rig.pass({ minutes: 20 })
    clinic.idris.press('Acknowledge')
    clinic.maren.skip().press('Acknowledge')
    expect(clinic.maren.read()).toBe('Orla Tiernan: already acknowledged by Idris Vane.')
    expect(clinic.entries('alert-acknowledged').map((entry) => entry.by)).toEqual(['Idris Vane'])
  })

  it('rests for good once a contact is recorded, with the lock still on', () => {
    const clinic = emergency()
    clinic.maren.skip().press('I have spoken with the client')
    expect(clinic.maren.read()).toBe('Orla Tiernan: contact recorded. The lock stays until you clear it.')
    clinic.client.press('Called')
    clinic.readAll()
    clinic.rig.pass({ days: 2 })
    // What stays open is in the daily line, and is nothing that anybody is woken for.
    expect(clinic.maren.read().split('\n---\n').map((message) => message.split('\n')[0])).toEqual(['Open with one client:', 'Open with one client:'])
    expect([clinic.idris.read(), clinic.saoirse.read()]).toEqual(['', ''])
    expect(clinic.chart().lock?.level).toBe('emergency')
  })
})

describe('clearing a lock', () => {
  function cleared(clinic: JoinedClinic, dose: 'The usual restart' | 'The lowest dose of that rung' = 'The usual restart'): JoinedClinic {
    clinic.maren.press('I have spoken with the client', 'Clear the lock …', 'Seen in person')
    clinic.maren.write('examined today, no neurological sign').press(dose)
    return clinic
  }

  it('asks how the client was assessed, why and from which dose, and tells both', () => {
    const clinic = urgent()
    clinic.readAll()
    clinic.maren.press('Clear the lock …').press('By phone or video').write('the arm was slept on').press('The usual restart')
    expect(clinic.maren.read()).toMatchInlineSnapshot(`
      "Clearing the lock of Orla Tiernan. How was the client assessed?
      → By phone or video
      ---
      Why may Orla Tiernan train again? One sentence for the record.
      ---
      Where does training start again? The usual restart is: two-hand press: 3 sets of 5 holds of 5 seconds, push 3 out of 10.
      → The usual restart
      ---
      Orla Tiernan: cleared. Training starts again lower, and without progress for 2 sessions. The client has been told."
    `)
    expect(clinic.client.read()).toBe(
      'Your therapist has cleared you to train again. We start easier than before. The safety check comes first next time.',
    )
    expect(clinic.entries('cleared').map(({ by, data }) => ({ by, data }))).toEqual([
      { by: 'Maren Holt', data: { assessed: 'phoned', reason: 'the arm was slept on', desk: colleagues.maren.desk, dose: 'usual', level: 'urgent' } },
    ])
    expect(clinic.chart().alerts).toEqual([])
  })

  // One ease below the hold of 6 s is 5 s; an emergency starts at or below the rung's entry, 5 s.
  it.each([
    ['an urgent sign', urgent, 'The usual restart', '5 holds of 5 seconds'],
    ['an emergency', emergency, 'The usual restart', '5 holds of 5 seconds'],
    ['an emergency, from the lowest dose', emergency, 'The lowest dose of that rung', '5 holds of 2 seconds'],
  ] as const)('after %s starts lower, with the whole safety check', (_title, begin, dose, expected) => {
    const clinic = cleared(begin(), dose)
    clinic.rig.moveTo('2026-01-09T18:00:00Z')
    clinic.client.press('Ready')
    expect(clinic.client.messages.at(-1)?.buttons.map(({ label }) => label)).toContain('New illness, medicine, operation or pregnancy')
    clinic.client.press('None of these').write('1').press('Done')
    expect(clinic.client.messages.at(-1)?.text).toContain(expected)
  })

  it('lets nothing progress for two sessions, and then again', () => {
    const clinic = cleared(urgent())
    const doses: string[] = []
    for (const day of ['09', '12', '14', '16']) {
      clinic.rig.moveTo(`2026-01-${day}T17:59:00Z`)
      if (clinic.asks !== null) clinic.client.write('1')
      clinic.rig.moveTo(`2026-01-${day}T18:00:00Z`)
      clinic.begin()
      doses.push(/holds? of (\d+) seconds/.exec(clinic.client.messages.at(-1)?.text ?? '')?.[1] ?? '')
      while (clinic.asks === 'session.set') clinic.doSet()
    }
    expect(doses).toEqual(['5', '5', '5', '6'])
  })

  it('needs a reason and can be left in the middle, which clears nothing', () => {
    const clinic = urgent()
    clinic.maren.press('Clear the lock …', 'Seen in person').write('  ')
    expect(clinic.rig.desk(colleagues.maren.desk).conversations.at(-1)?.state).toBe('reason')
    clinic.maren.write('stop')
    expect(clinic.chart().lock?.level).toBe('urgent')
    expect(clinic.entries('cleared')).toEqual([])
  })

  it('pressed twice is asked once, from its first question', () => {
    const clinic = urgent()
    clinic.maren.press('Clear the lock …', 'Seen in person').press('Clear the lock …')
    expect(clinic.rig.desk(colleagues.maren.desk).conversations.map(({ flow, state }) => `${flow}.${state}`)).toEqual(['clearing.assessed'])
    clinic.maren.press('By phone or video').write('the arm was slept on').press('The usual restart')
    expect(clinic.entries('cleared').map(({ data }) => data.assessed)).toEqual(['phoned'])
    expect(clinic.rig.desk(colleagues.maren.desk).conversations).toEqual([])
  })

  it('that somebody else did meanwhile changes nothing and says so', () => {
    const clinic = urgent()
    clinic.rig.pass({ hours: 4 })
    clinic.idris.press('Clear the lock …', 'Seen in person').write('seen').press('The usual restart')
    clinic.maren.skip().press('Clear the lock …')
    expect(clinic.maren.read()).toBe('Orla Tiernan: not locked. Nothing was changed.')
  })

  it('brings the reminders back, and the therapist is told when two weeks pass without a session', () => {
    const clinic = cleared(urgent())
    clinic.readAll()
    clinic.rig.moveTo('2026-01-09T18:00:00Z')
    expect(clinic.asks).toBe('session.ready')
    clinic.rig.moveTo('2026-01-21T18:00:00Z')
    expect(clinic.maren.read()).toContain('No session for 14 days.')
  })
})
