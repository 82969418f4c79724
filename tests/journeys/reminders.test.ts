// Reminders and check-ins: in the client's own time, once a date, never in a burst.
import { describe, expect, it } from 'vitest'
import { JoinedClinic, type Opening } from '#tests/support/joined-clinic.ts'
import { extensionPlan } from '#tests/support/sample-chain.ts'
import { weekdays } from '#src/domain/plan.ts'

const hello = 'Hello Orla Tiernan. It is time for your neck session.'

function quietClinic(opening: Opening = {}): JoinedClinic {
  return new JoinedClinic(opening)
}

/** The instants at which the client was reminded, as ISO text in UTC. */
function remindedAt(clinic: JoinedClinic): readonly string[] {
  return clinic.client.messages.filter(({ text }) => text.startsWith(hello)).map(({ at }) => new Date(at).toISOString().slice(0, 16))
}

describe('a reminder', () => {
  it('comes on the days and at the time of the plan, one a date, at a reminder’s urgency', () => {
    const clinic = quietClinic()
    clinic.rig.moveTo('2026-01-12T17:59:00Z')
    expect(remindedAt(clinic)).toEqual(['2026-01-05T18:00', '2026-01-07T18:00', '2026-01-09T18:00'])
    expect(clinic.client.messages.filter(({ text }) => text.startsWith(hello)).map(({ urgency }) => urgency)).toEqual(['reminder', 'reminder', 'reminder'])
  })

  it('takes the buttons off the one before', () => {
    const clinic = quietClinic()
    clinic.rig.moveTo('2026-01-07T18:00:00Z')
    expect(clinic.client.messages.filter(({ text }) => text.startsWith(hello)).map(({ buttons }) => buttons.length)).toEqual([0, 3])
  })

  it('put off comes again an hour later, and then counts as that date’s', () => {
    const clinic = quietClinic()
    clinic.rig.moveTo('2026-01-05T18:00:00Z')
    clinic.client.skip().press('Later')
    expect(clinic.client.read()).toBe('All right. I will ask again: Mon 5 Jan, 19:00.')
    clinic.rig.moveTo('2026-01-06T12:00:00Z')
    expect(remindedAt(clinic)).toEqual(['2026-01-05T18:00', '2026-01-05T19:00'])
  })

  it('put off into the quiet hours waits for the next session', () => {
    const clinic = quietClinic({ plan: { ...extensionPlan, schedule: { ...extensionPlan.schedule, time: '20:30' } } })
    clinic.rig.moveTo('2026-01-05T20:30:00Z')
    clinic.client.skip().press('Later')
    expect(clinic.client.read()).toBe('There is no good time left today. I will ask again at your next session.')
    clinic.rig.moveTo('2026-01-07T20:29:00Z')
    expect(remindedAt(clinic)).toEqual(['2026-01-05T20:30'])
  })

  it('found due up to two hours late is still sent, and later is skipped and noted', () => {
    const late = ['2026-01-05T20:00:00Z', '2026-01-05T20:00:01Z'].map((at) => {
      const clinic = quietClinic()
      clinic.rig.sleepUntil(at)
      return [remindedAt(clinic).length, ...clinic.entries('reminder-skipped').map(({ data }) => data)]
    })
    expect(late).toEqual([[1], [0, { dueAt: Date.parse('2026-01-05T18:00:00Z'), isMissed: true }]])
  })

  it('comes once after a week in which the machine was off, not in a burst', () => {
    const clinic = quietClinic()
    clinic.rig.sleepUntil('2026-01-14T12:00:00Z')
    expect(clinic.client.read()).toBe('')
    clinic.rig.moveTo('2026-01-16T12:00:00Z')
    expect(remindedAt(clinic)).toEqual(['2026-01-14T18:00'])
  })

  it('keeps its wall time over the nights on which clocks change', () => {
    const everyDay = { ...extensionPlan, schedule: { ...extensionPlan.schedule, days: weekdays } }
    const clinic = quietClinic({ plan: everyDay, startsAt: '2026-03-27T20:00:00Z' })
    clinic.rig.moveTo('2026-03-31T12:00:00Z')
    expect(remindedAt(clinic)).toEqual(['2026-03-28T18:00', '2026-03-29T17:00', '2026-03-30T17:00'])
    const autumn = quietClinic({ plan: everyDay, startsAt: '2026-10-23T20:00:00Z' })
    autumn.rig.moveTo('2026-10-26T23:00:00Z')
    expect(remindedAt(autumn)).toEqual(['2026-10-24T17:00', '2026-10-25T18:00', '2026-10-26T18:00'])
  })

  it('waits for a session under way and does not come after it on the same date', () => {
    const clinic = quietClinic()
    clinic.rig.moveTo('2026-01-05T17:50:00Z')
    clinic.begin()
    clinic.rig.moveTo('2026-01-05T18:05:00Z')
    while (clinic.asks === 'session.set') clinic.doSet()
    clinic.rig.moveTo('2026-01-06T12:00:00Z')
    expect(remindedAt(clinic)).toEqual([])
    clinic.rig.moveTo('2026-01-07T18:00:00Z')
    expect(remindedAt(clinic)).toEqual(['2026-01-07T18:00'])
  })

  it('comes although whether anything is new or worse was never answered: the session begins with that', () => {
    const clinic = quietClinic()
    clinic.rig.store({ ...clinic.chart(), conversations: [{ flow: 'symptom', version: 1, state: 'ask', data: {} }] })
    expect(clinic.asks).toBe('symptom.ask')
    clinic.rig.moveTo('2026-01-05T18:00:00Z')
    expect(clinic.asks).toBe('session.ready')
  })

  it('that waits for an open question is given up in the quiet hours', () => {
    const clinic = quietClinic()
    clinic.rig.moveTo('2026-01-05T17:50:00Z')
    clinic.begin()
    clinic.rig.moveTo('2026-01-06T02:00:00Z')
    expect(remindedAt(clinic)).toEqual([])
    expect(clinic.chart().timers.filter(({ kind }) => kind === 'reminder').map(({ dueAt }) => new Date(dueAt).toISOString())).toEqual([
      '2026-01-07T18:00:00.000Z',
    ])
  })
})

describe('a session left in its safety check', () => {
  it('late in the evening is not followed by the reminder that waited for it', () => {
    const clinic = quietClinic()
    clinic.rig.moveTo('2026-01-05T17:50:00Z')
    clinic.client.write('ready')
    clinic.rig.moveTo('2026-01-05T22:00:00Z')
    clinic.client.write('stop').press('None of these')
    clinic.rig.moveTo('2026-01-07T17:59:00Z')
    expect(remindedAt(clinic)).toEqual([])
  })

  it('over midnight is not followed by the reminder of the day before, though no quiet hours forbid it', () => {
    const quiet = { from: '02:00', to: '06:00' }
    const clinic = quietClinic({ plan: { ...extensionPlan, schedule: { ...extensionPlan.schedule, quiet } } })
    clinic.rig.moveTo('2026-01-05T17:50:00Z')
    clinic.client.write('ready')
    clinic.rig.moveTo('2026-01-07T17:59:00Z')
    expect(remindedAt(clinic)).toEqual([])
  })
})

describe('joining', () => {
  it('does not take a session time in the quiet hours', () => {
    const clinic = quietClinic()
    clinic.rig.store({ ...clinic.chart(), standing: 'invited', conversations: [{ flow: 'consent', version: 1, state: 'other-time', data: {} }] })
    clinic.client.skip().write('10 pm')
    expect(clinic.client.read()).toMatchInlineSnapshot(`
      "From 21:00 to 08:00 I keep quiet, so I cannot ask then. Please choose another time.

      At what time should I ask?"
    `)
    clinic.client.write('7 pm')
    expect(clinic.client.read()).toContain('Your first session: Mon 5 Jan, 19:00.')
  })

  it('keeps the client’s own zone and time', () => {
    const clinic = quietClinic()
    clinic.rig.store({ ...clinic.chart(), standing: 'invited', conversations: [{ flow: 'consent', version: 1, state: 'zone', data: {} }], timers: [] })
    clinic.client.write('no', 'Europe/Athens', 'no', '17:15').skip()
    clinic.rig.moveTo('2026-01-05T15:15:00Z')
    expect(clinic.client.read()).toContain(hello)
    expect(clinic.maren.read()).toBe('Orla Tiernan has joined: time zone Europe/Athens, sessions at 17:15.')
  })

  it('put off is taken up again when the client writes, and refused is kept', () => {
    const clinic = quietClinic()
    clinic.rig.store({ ...clinic.chart(), standing: 'invited', conversations: [{ flow: 'consent', version: 1, state: 'agree', data: {} }] })
    clinic.client.skip().write('stop')
    expect(clinic.client.read()).toContain('All right. Write to me when you want to go on.')
    clinic.client.write('hello again')
    expect(clinic.asks).toBe('consent.about')
    clinic.client.press('Go on').write('no').skip()
    expect(clinic.maren.read()).toBe('Orla Tiernan has not agreed. Nothing will be asked.')
    clinic.rig.moveTo('2026-01-12T12:00:00Z')
    expect(clinic.client.read()).toBe('')
  })
})

describe('the morning question', () => {
  const trained = (): JoinedClinic => {
    const clinic = quietClinic()
    clinic.rig.moveTo('2026-01-05T18:00:00Z')
    clinic.train().readAll()
    return clinic
  }

  it('comes at eight, after the quiet hours, and lowers the dose when the morning was bad', () => {
    const clinic = trained()
    clinic.rig.moveTo('2026-01-06T08:00:00Z')
    clinic.client.skip().write('3')
    expect(clinic.client.read()).toMatchInlineSnapshot(`
      "Thank you.

      Next time: a bit easier.
      two-hand press: 3 sets of 5 holds of 4 seconds, push 3 out of 10.
      Why: Your pain was 3 the next day.

      Next session: Wed 7 Jan, 18:00."
    `)
  })

  it('of red pain asks the symptom question', () => {
    const clinic = trained()
    clinic.rig.moveTo('2026-01-06T08:00:00Z')
    clinic.client.write('6')
    expect(clinic.asks).toBe('symptom.ask')
  })

  it('left open is asked in the session, with the worst since then', () => {
    const clinic = trained()
    clinic.rig.moveTo('2026-01-07T18:00:00Z')
    clinic.client.press('Ready', 'None of these')
    expect(clinic.asks).toBe('session.morning')
    clinic.client.press('I do not remember')
    expect(clinic.asks).toBe('session.worst-since')
    clinic.client.write('1')
    expect(clinic.asks).toBe('session.pain-now')
  })

  it('is not asked on a later date when the machine was off', () => {
    const clinic = trained()
    clinic.rig.sleepUntil('2026-01-07T09:00:00Z')
    expect(clinic.client.read()).toBe('')
  })
})

describe('the weekly question', () => {
  it('comes once a week at eight, waits for the morning question and never blocks a session', () => {
    const clinic = quietClinic()
    clinic.rig.moveTo('2026-01-12T08:00:00Z')
    clinic.client.skip()
    expect(clinic.asks).toBe('weekly.now')
    clinic.rig.moveTo('2026-01-12T18:00:00Z')
    expect(clinic.asks).toBe('session.ready')
    clinic.rig.moveTo('2026-01-19T08:00:00Z')
    expect(clinic.asks).toBe('weekly.now')
  })

  it('comes after the morning question of the same day', () => {
    const sundays = { ...extensionPlan, schedule: { ...extensionPlan.schedule, days: ['sun'] as const } }
    const clinic = quietClinic({ plan: sundays })
    clinic.rig.moveTo('2026-01-11T18:00:00Z')
    clinic.train()
    clinic.rig.moveTo('2026-01-12T08:00:00Z')
    expect(clinic.asks).toBe('morning.pain')
    clinic.rig.pass({ minutes: 5 })
    clinic.client.write('1')
    expect(clinic.asks).toBeNull()
    clinic.rig.pass({ minutes: 5 })
    expect(clinic.asks).toBe('weekly.now')
  })
})
