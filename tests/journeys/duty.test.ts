// When therapists are on duty, when they are away, and who gets an alert at once instead.
import { describe, expect, it } from 'vitest'
import { chartId, colleagues, JoinedClinic } from '#tests/support/joined-clinic.ts'
import type { Person } from '#tests/support/person.ts'

/** Maren is away from Wednesday, 7 January, back on Monday, 12 January. */
function withMarenAway(standIn: 'Idris Vane' | 'Saoirse Bly' | 'Nobody'): JoinedClinic {
  const clinic = new JoinedClinic()
  clinic.maren.write('away').press('I will be away').write('Wednesday', 'Monday').press(standIn, 'Save')
  clinic.readAll()
  return clinic
}

/** The minutes after it was raised at which somebody was sent the alert. */
function sentAt(clinic: JoinedClinic, person: Person): readonly number[] {
  const raisedAt = clinic.chart().alerts.find(({ level }) => level !== 'routine')?.raisedAt ?? 0
  return person.messages.filter(({ at, text }) => at >= raisedAt && /^(.*\n)?⚠ (EMERGENCY|URGENT)/.test(text)).map(({ at }) => (at - raisedAt) / 60_000)
}

function sendings(clinic: JoinedClinic): readonly (readonly number[])[] {
  return [clinic.maren, clinic.idris, clinic.saoirse].map((person) => sentAt(clinic, person))
}

const nobody = 'Nobody is on duty right now'

describe('a therapist who will be away', () => {
  it('says from when, until when and who stands in, reads it back, and everybody concerned is told', () => {
    const clinic = new JoinedClinic()
    clinic.maren.write('away')
    clinic.maren.press('I will be away', 'Wed 7 Jan').write('2026-01-12').press('Idris Vane', 'Save')
    expect(clinic.maren.read()).toMatchInlineSnapshot(`
      "Your duty times are Mon, Tue, Wed, Thu, Fri, 08:00 to 20:00. What is it about?
      → I will be away
      ---
      From which day are you away?
      → Wed 7 Jan
      ---
      Away from Wed 7 Jan. On which day are you on duty again?
      ---
      Who stands in for you? Please ask them first.
      → Idris Vane
      ---
      Away from Wed 7 Jan, back on duty on Mon 12 Jan.
      Idris Vane stands in and gets the alerts of your clients at once. They still come to you as well.
      → Save
      ---
      Noted: away from Wed 7 Jan, on duty again on Mon 12 Jan. Idris Vane stands in and has been told. Write "duty" when something changes."
    `)
    expect(clinic.idris.read()).toMatchInlineSnapshot(`"Maren Holt is away from Wed 7 Jan, back on Mon 12 Jan, and has named you to stand in. Alerts of their clients come to you at once, at any hour. If you cannot, please tell Maren Holt now."`)
    expect(clinic.rig.clinic().therapists.find(({ name }) => name === 'Maren Holt')?.away).toEqual({
      from: Date.parse('2026-01-07T00:00:00Z'),
      until: Date.parse('2026-01-12T00:00:00Z'),
      standIn: colleagues.idris.desk,
    })
    expect(clinic.chart().therapist).toEqual(clinic.rig.clinic().therapists.find(({ name }) => name === 'Maren Holt'))
  })

  it('is asked again where the days are in the wrong order, gone by, or a year long', () => {
    const clinic = new JoinedClinic()
    clinic.maren.write('away').press('I will be away')
    const asked = [['2026-01-09', '2026-01-09'], ['2026-01-09', '2026-01-08'], ['2026-01-04', '2026-01-09'], ['2026-01-09', '2027-01-09']].map(([from, until]) => {
      clinic.maren.skip().write(from ?? '', until ?? '')
      const isTold = clinic.maren.read().includes('You can be back on a later day than the first one away')
      return [isTold, clinic.rig.desk(colleagues.maren.desk).conversations.at(-1)?.state]
    })
    expect(asked).toEqual(Array.from({ length: 4 }, () => [true, 'from']))
  })

  it('may leave it, and nothing is saved', () => {
    const clinic = new JoinedClinic()
    clinic.maren.write('duty').press('I will be away', 'Wed 7 Jan').write('Monday').press('Nobody').skip().press('Leave it')
    expect(clinic.maren.read()).toBe('Left. Nothing was saved.')
    expect(clinic.rig.desk(colleagues.maren.desk).away).toBeNull()
  })

  it('comes back earlier by saying so, and then counts as on duty', () => {
    const clinic = withMarenAway('Idris Vane')
    clinic.rig.moveTo('2026-01-08T12:00:00Z')
    clinic.maren.skip().write('i am back').press('I am back')
    expect(clinic.maren.read()).toContain('You are away from Wed 7 Jan, back on Mon 12 Jan.')
    clinic.readAll()
    clinic.client.write('my arm went numb')
    expect(sendings(clinic)).toEqual([[0], [], []])
  })

  it('who says to be back without having been away changes nothing', () => {
    const clinic = new JoinedClinic()
    clinic.maren.write('duty').press('I am back')
    expect(clinic.maren.read()).toContain('You are not away, so nothing was changed.')
    expect(clinic.entries('duty-changed')).toEqual([])
  })

  it('may change the days and the stand-in, and the first one is told', () => {
    const clinic = withMarenAway('Idris Vane')
    clinic.maren.write('duty').press('I will be away').write('tomorrow', 'Friday').press('Saoirse Bly', 'Save')
    expect(clinic.idris.read()).toBe('Maren Holt has changed the time away: you no longer stand in.')
    expect(clinic.saoirse.read()).toMatch(/^Maren Holt is away from Tue 6 Jan, back on Fri 9 Jan, and has named you to stand in\./)
  })

  it('in a clinic of one is not asked who stands in', () => {
    const clinic = new JoinedClinic()
    clinic.rig.store({ ...clinic.rig.desk(colleagues.maren.desk), colleagues: [colleagues.maren] })
    clinic.maren.write('duty').press('I will be away').write('Wednesday', 'Monday')
    expect(clinic.maren.messages.at(-1)?.text).toContain('Nobody stands in.')
  })
})

describe('other duty times', () => {
  it('reach the chart of every client, and those where the therapist is the second contact', () => {
    const clinic = new JoinedClinic()
    clinic.maren.write('duty').press('Other duty times').write('mon-wed', '09:00-13:00')
    clinic.idris.write('duty').press('Other duty times').write('sun', '10:00-12:00')
    expect(clinic.maren.read()).toContain('Noted: on duty on Mon, Tue, Wed, 09:00 to 13:00.')
    const { therapist, second } = clinic.rig.chart(chartId)
    expect([therapist?.cover, second?.cover]).toEqual([
      { days: ['mon', 'tue', 'wed'], from: '09:00', to: '13:00' },
      { days: ['sun'], from: '10:00', to: '12:00' },
    ])
    clinic.client.skip().write('my arm went numb')
    expect(clinic.client.read()).not.toContain(nobody)
    clinic.rig.pass({ hours: 2 })
    expect(sendings(clinic)).toEqual([[0, 120], [], []])
  })

  it('reach a chart of an earlier version at its next timer, and its desk hears what is open there', () => {
    const clinic = new JoinedClinic()
    clinic.client.write('my arm went numb')
    clinic.rig.store({ ...clinic.chart(), colleagues: [] })
    clinic.rig.store({ ...clinic.rig.desk(colleagues.maren.desk), openMatters: [], timers: [] })
    clinic.rig.pass({ hours: 2 })
    expect(clinic.chart().colleagues.map(({ name }) => name)).toEqual(['Maren Holt', 'Idris Vane', 'Saoirse Bly'])
    expect(clinic.rig.desk(colleagues.maren.desk).openMatters.map(({ matters }) => matters.alerts[0]?.level)).toEqual(['urgent'])
  })

  it('of a second contact who joins only later are known as soon as they have settled in', () => {
    const clinic = new JoinedClinic()
    clinic.rig.store({ ...clinic.chart(), second: null })
    clinic.idris.write('duty').press('Other duty times').write('every day', '08:00-09:00')
    expect(clinic.chart().second?.name).toBe('Idris Vane')
  })
})

describe('an urgent sign', () => {
  // Maren: Monday to Friday 08:00–20:00 in Dublin. Idris: every day 05:00–20:00 there. Saoirse as Maren.
  it.each([
    ['on a weekday', '2026-01-06T12:00:00Z', 'Nobody', [[0], [], []], false],
    ['on a weekday night', '2026-01-06T23:00:00Z', 'Nobody', [[0], [], []], true],
    ['on Sunday, with the second on duty', '2026-01-11T12:00:00Z', 'Nobody', [[0], [0], []], false],
    ['while she is away and Saoirse stands in', '2026-01-08T12:00:00Z', 'Saoirse Bly', [[0], [], [0]], false],
    ['in a night while she is away and Saoirse stands in', '2026-01-08T23:00:00Z', 'Saoirse Bly', [[0], [], [0]], true],
    ['while she is away and nobody stands in', '2026-01-08T12:00:00Z', 'Nobody', [[0], [0], []], false],
    ['in a night while she is away and nobody stands in', '2026-01-08T23:00:00Z', 'Nobody', [[0], [], []], true],
  ] as const)('%s goes at once to whoever is on duty as well, and the client is told if nobody is', (_when, at, standIn, expected, isNobody) => {
    const clinic = withMarenAway(standIn)
    clinic.rig.moveTo(at)
    clinic.readAll()
    clinic.client.write('my arm went numb')
    expect(sendings(clinic)).toEqual(expected)
    const told = clinic.client.read()
    expect([told.includes(nobody), told.includes('020 913 0104')]).toEqual([isNobody, true])
  })

  it('names the hour at which somebody is on duty next', () => {
    const clinic = withMarenAway('Nobody')
    clinic.rig.moveTo('2026-01-08T23:00:00Z')
    clinic.client.skip().write('my arm went numb')
    expect(clinic.client.read()).toContain('Nobody is on duty right now, not until Fri 9 Jan, 05:00.')
  })
})

describe('an emergency', () => {
  it('in a night in which nobody is on duty goes to everybody at once, and on to all in its time', () => {
    const clinic = withMarenAway('Nobody')
    clinic.rig.moveTo('2026-01-06T23:00:00Z')
    clinic.client.write('half my face is drooping')
    expect(sendings(clinic)).toEqual([[0], [0], [0]])
    clinic.rig.pass({ minutes: 30 })
    expect(sendings(clinic)).toEqual([[0, 10, 20, 30], [0, 10, 20, 30], [0, 10, 20, 30]])
  })

  it('breaks through the quiet hours of the client too', () => {
    const clinic = withMarenAway('Nobody')
    clinic.rig.moveTo('2026-01-06T23:30:00Z')
    clinic.client.skip().write('half my face is drooping')
    clinic.rig.pass({ minutes: 5 })
    expect(clinic.client.messages.slice(-2).map(({ urgency }) => urgency)).toEqual(['alert', 'alert'])
  })

  it('raised on duty is sent to whoever is on duty instead once the duty is over', () => {
    const clinic = new JoinedClinic()
    clinic.idris.write('duty').press('Other duty times').write('every day', '00:00-23:59')
    clinic.rig.moveTo('2026-01-06T19:55:00Z')
    clinic.client.write('half my face is drooping')
    clinic.rig.pass({ minutes: 10 })
    expect(sendings(clinic)).toEqual([[0, 10], [10], []])
  })
})

describe('whoever else was sent an alert', () => {
  it('hears who has acknowledged it, who has spoken with the client and who has cleared it, and nobody else does', () => {
    const clinic = withMarenAway('Saoirse Bly')
    clinic.rig.moveTo('2026-01-08T12:00:00Z')
    clinic.client.write('my arm went numb')
    clinic.readAll()
    clinic.saoirse.press('Acknowledge')
    const acknowledged = [clinic.maren.read(), clinic.idris.read()]
    clinic.saoirse.press('I have spoken with the client')
    const contacted = [clinic.maren.read(), clinic.idris.read()]
    clinic.saoirse.press('Clear the lock …', 'Seen in person').write('seen today, slept on the arm').press('The usual restart')
    expect([acknowledged, contacted, [clinic.maren.read(), clinic.idris.read()]]).toEqual([
      ['Orla Tiernan: Saoirse Bly has acknowledged the alert and is to reach the client. You need do nothing unless it comes again.', ''],
      ['Orla Tiernan: Saoirse Bly has spoken with the client.', ''],
      ['Orla Tiernan: Saoirse Bly has cleared the lock.', ''],
    ])
  })

  it('hears it also where it went to everybody, and whoever pressed does not hear it twice', () => {
    const clinic = withMarenAway('Nobody')
    clinic.rig.moveTo('2026-01-06T23:00:00Z')
    clinic.client.write('half my face is drooping')
    clinic.readAll()
    clinic.idris.press('I have spoken with the client')
    const others = 'Orla Tiernan: Idris Vane has spoken with the client.'
    expect([clinic.maren.read(), clinic.saoirse.read(), clinic.idris.read()]).toEqual([others, others, 'Orla Tiernan: contact recorded. The lock stays until you clear it.'])
  })

  it('is named in the alert, and gets what the client answers since', () => {
    const clinic = withMarenAway('Saoirse Bly')
    clinic.rig.moveTo('2026-01-08T12:00:00Z')
    clinic.client.write('half my face is drooping')
    expect(clinic.saoirse.read()).toContain('Also sent to: Maren Holt')
    clinic.client.press('I cannot call')
    expect([clinic.maren, clinic.saoirse].map((person) => person.messages.at(-1)?.text.includes('CANNOT CALL for help'))).toEqual([true, true])
    expect(clinic.idris.read()).toBe('')
  })
})
