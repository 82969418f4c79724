// What a client wants apart from training: a break, other times, another zone, a word to the therapist, to leave.
import { describe, expect, it } from 'vitest'
import { brandAs } from '#src/domain/identifier.ts'
import { inFirstSet, JoinedClinic } from '#tests/support/joined-clinic.ts'
import { extensionPlan } from '#tests/support/sample-chain.ts'

function nextReminder(clinic: JoinedClinic): string | null {
  const timer = clinic.chart().timers.find(({ kind, about }) => kind === 'reminder' && about === '')
  return timer === undefined ? null : new Date(timer.dueAt).toISOString()
}

/** Summer time, ahead of UTC. */
const aucklandMs = 13 * 3_600_000

function timersOf(clinic: JoinedClinic): readonly string[] {
  return clinic.chart().timers.map(({ kind }) => kind).toSorted()
}

describe('a break', () => {
  it('of a week is asked for, told to the therapist, and brings no reminder before it is over', () => {
    const clinic = new JoinedClinic()
    clinic.client.write('pause').press('I am away', '1 week')
    expect(clinic.client.read()).toContain('I will ask you again: Mon 12 Jan, 18:00')
    expect(clinic.maren.read()).toBe('Orla Tiernan is on a break (away), until 2026-01-12. No reminders until then.')
    clinic.rig.moveTo('2026-01-12T17:59:00Z')
    expect(clinic.asks).not.toBe('session.ready')
    expect(clinic.client.messages.some(({ text }) => text.includes('time for your neck session'))).toBe(false)
    clinic.rig.moveTo('2026-01-12T18:00:00Z')
    expect(clinic.asks).toBe('session.ready')
    expect(clinic.chart().pause).toBeNull()
  })

  it('counts no day as missed, and shows in the look at the client', () => {
    const clinic = new JoinedClinic()
    clinic.client.write('pause').press('Something else', '2 weeks')
    clinic.rig.moveTo('2026-01-16T12:00:00Z')
    clinic.maren.skip().write('clients').press('Orla Tiernan')
    expect(clinic.maren.read()).toContain('On a break since Mon 5 Jan, 12:00 (another reason), until 2026-01-19.')
    expect(clinic.chart().training.weeks.map(({ prescribed }) => prescribed)).toEqual([])
  })

  it.each(['I am ill', '1'])('for illness (%s) asks about signs first, and about the time then', (answer) => {
    const clinic = new JoinedClinic()
    clinic.client.write('pause')
    if (answer === '1') clinic.client.write(answer)
    else clinic.client.press(answer)
    expect(clinic.asks).toBe('symptom.ask')
    clinic.client.press('None of these')
    expect(clinic.asks).toBe('pause.how-long')
  })

  it('for illness with a sign of the emergency locks, and is no longer asked about', () => {
    const clinic = new JoinedClinic()
    clinic.client.write('pause').press('I am ill').write('fever and my neck is too stiff to bend')
    expect(clinic.chart().lock?.level).toBe('emergency')
    expect(clinic.asks).toBe('called.called')
  })

  it('typed as "ill" is told as a sign and is the reason as well', () => {
    const clinic = new JoinedClinic()
    clinic.client.write('pause', 'ill')
    expect(clinic.maren.read()).toContain('Feeling ill: “ill”')
    clinic.client.press('None of these', '3 days')
    expect(clinic.chart().pause).toMatchObject({ reason: 'ill', until: '2026-01-08' })
  })

  it('in the middle of a set ends the session with what was done kept', () => {
    const clinic = inFirstSet()
    clinic.doSet()
    clinic.client.write('pause').press('I am away', '1 week')
    expect(clinic.chart().session).toBeNull()
    expect(clinic.chart().pending?.ladders[0]?.sets.map(({ report }) => report?.pain ?? null)).toEqual([1, null, null])
    expect(clinic.client.read()).toContain('Next session: Mon 12 Jan, 18:00')
  })

  it('of a few minutes leaves the session where it is', () => {
    const clinic = inFirstSet()
    clinic.client.write('pause').press('Only a few minutes')
    expect(clinic.asks).toBe('session.set')
    expect(clinic.client.read()).toContain('Take your time.')
  })

  it('without an end asks once a week whether it is over, and begins anew after an illness with the question about signs', () => {
    const clinic = new JoinedClinic()
    clinic.client.write('pause').press('I am ill', 'None of these', 'I do not know yet')
    expect(nextReminder(clinic)).toBeNull()
    clinic.rig.moveTo('2026-01-12T08:00:00Z')
    expect(clinic.asks).toBe('pause.back')
    clinic.rig.moveTo('2026-01-19T08:00:00Z')
    expect(clinic.asks).toBe('pause.back')
    clinic.client.skip().press('Yes, go on')
    expect(clinic.asks).toBe('symptom.ask')
    clinic.client.press('None of these')
    expect(clinic.client.read()).toContain('Welcome back. I will ask you again: Mon 19 Jan, 18:00')
    expect(clinic.chart().pause).toBeNull()
    clinic.rig.moveTo('2026-01-19T18:00:00Z')
    expect(clinic.asks).toBe('session.ready')
  })

  it('that goes on keeps its reason and its beginning', () => {
    const clinic = new JoinedClinic()
    clinic.client.write('pause').press('I am away', 'I do not know yet')
    const since = clinic.chart().pause?.since
    clinic.rig.moveTo('2026-01-12T08:00:00Z')
    clinic.client.press('I need longer', '2 weeks')
    expect(clinic.chart().pause).toEqual({ reason: 'away', since, until: '2026-01-26' })
    expect(timersOf(clinic)).not.toContain('pause-over')
  })

  it('ends with "ready"; the dose is eased for the time off all the same', () => {
    const clinic = new JoinedClinic()
    clinic.rig.moveTo('2026-01-05T18:00:00Z')
    clinic.train()
    clinic.client.write('pause').press('I am away', '4 weeks')
    clinic.rig.moveTo('2026-01-25T18:00:00Z')
    expect(clinic.maren.read()).toContain('No session for 14 days. On a break since Mon 5 Jan, 18:00 (away), until 2026-02-02.')
    clinic.begin()
    expect(clinic.chart().pause).toBeNull()
    expect(clinic.chart().session?.prescribed[0]?.reasons.map(({ rule }) => rule)).toContain('absence-eased')
  })

  it('is not talked about while a question about a sign is open', () => {
    const clinic = inFirstSet()
    clinic.client.write('is it normal that my face might be numb?')
    expect(clinic.asks).toBe('symptom.confirm')
    clinic.client.write('pause')
    expect(clinic.asks).toBe('symptom.confirm')
  })
})

describe('other times', () => {
  it('of day move the reminder and are told to the therapist', () => {
    const clinic = new JoinedClinic()
    clinic.client.write('change times').press('The time').write('9:00').press('Yes')
    expect(nextReminder(clinic)).toBe('2026-01-07T09:00:00.000Z')
    expect(clinic.client.read()).toContain('Done. I will ask you next: Wed 7 Jan, 09:00.')
    expect(clinic.maren.read()).toBe('Orla Tiernan has chosen other times: Mon, Wed, Fri at 09:00.')
  })

  it('in the quiet hours are asked again', () => {
    const clinic = new JoinedClinic()
    clinic.client.write('change times').press('The time').write('23:30')
    expect(clinic.asks).toBe('times.time')
    expect(clinic.client.read()).toContain('I keep quiet')
  })

  it('on other days are taken only as many as the plan has', () => {
    const clinic = new JoinedClinic()
    clinic.client.write('change times').press('The days').write('tue, thu')
    expect(clinic.asks).toBe('times.days')
    expect(clinic.client.read()).toContain('Your plan has 3 days a week, so I need just as many.')
    clinic.client.write('tue, thu, sat').press('Yes')
    expect(clinic.chart().plan?.schedule.days).toEqual(['tue', 'thu', 'sat'])
    expect(nextReminder(clinic)).toBe('2026-01-06T18:00:00.000Z')
  })

  it('are not changed where the client says no or stops', () => {
    const clinic = new JoinedClinic()
    const before = clinic.chart().plan
    clinic.client.write('change times').press('The time').write('9:00').press('No').write('stop')
    expect(clinic.chart().plan).toEqual(before)
    expect(clinic.asks).toBeNull()
  })

  it('hold also for a plan that waits for the session to end', () => {
    const clinic = inFirstSet()
    const waiting = { ...extensionPlan, usualPain: 2 }
    clinic.rig.tell(clinic.chart().id, { kind: 'amended', plan: waiting, by: null, reason: 'seen', therapist: null, second: null })
    clinic.client.write('change times').press('The time').write('9:00').press('Yes')
    expect(clinic.asks).toBe('session.set')
    clinic.doSets({ pain: 1 }, { pain: 1 }, { pain: 1 })
    expect(clinic.chart().amendment).toBeNull()
    expect(clinic.chart().plan).toMatchObject({ usualPain: 2, schedule: { time: '09:00' } })
  })
})

describe('another time zone', () => {
  it('is read back with its clock, and moves everything that is due at a wall time', () => {
    const clinic = new JoinedClinic()
    clinic.rig.moveTo('2026-01-05T18:00:00Z')
    clinic.train()
    clinic.client.skip().write('time zone').write('America/New_York')
    expect(clinic.client.read()).toContain('In America/New_York it is now: Mon 5 Jan, 13:00.')
    clinic.client.press('Yes')
    expect(nextReminder(clinic)).toBe('2026-01-07T23:00:00.000Z')
    const due = Object.fromEntries(clinic.chart().timers.map(({ kind, dueAt }) => [kind, new Date(dueAt).toISOString()]))
    expect(due).toMatchObject({ 'check-in': '2026-01-06T13:00:00.000Z', weekly: '2026-01-12T13:00:00.000Z' })
    expect(clinic.maren.read()).toContain('has moved from the time zone Europe/Dublin to America/New_York')
  })

  it('in the middle of a session lets it go on to the midnight there', () => {
    const clinic = inFirstSet()
    clinic.client.write('time zone').write('America/New_York').press('Yes')
    expect(clinic.asks).toBe('session.set')
    clinic.rig.moveTo('2026-01-06T04:59:00Z')
    expect(clinic.chart().session).not.toBeNull()
    clinic.rig.moveTo('2026-01-06T05:00:00Z')
    expect(clinic.chart().session).toBeNull()
  })

  it('over the date line never brings two reminders on one local date', () => {
    const clinic = new JoinedClinic()
    clinic.rig.moveTo('2026-01-05T18:00:00Z')
    clinic.client.write('time zone').write('Pacific/Auckland').press('Yes')
    const movedAt = clinic.rig.now
    clinic.rig.moveTo('2026-01-20T00:00:00Z')
    const reminders = clinic.client.messages.filter(({ at, text }) => at > movedAt && text.includes('time for your neck session'))
    const dates = reminders.map(({ at }) => new Date(at + aucklandMs).toISOString().slice(0, 10))
    // Monday's was had in Dublin, when it was Tuesday there already.
    expect(dates).toEqual(['2026-01-07', '2026-01-09', '2026-01-12', '2026-01-14', '2026-01-16', '2026-01-19'])
  })

  it('that is none is asked again with the mend', () => {
    const clinic = new JoinedClinic()
    clinic.client.write('time zone').write('CET')
    expect(clinic.asks).toBe('zone.zone')
    expect(clinic.client.read()).toContain('Short names such as CET do not say when the clocks change.')
  })
})

describe('a message to the therapist', () => {
  it('is passed on as it is written, and answered apart from the open question', () => {
    const clinic = inFirstSet()
    clinic.client.write('message my therapist').write('is the grey band the stronger one?')
    expect(clinic.maren.read()).toMatchInlineSnapshot(`
      "Message from Orla Tiernan:
      “is the grey band the stronger one?”
      [Answer]"
    `)
    expect(clinic.asks).toBe('session.set')
    const { prompt } = clinic.chart()
    clinic.client.skip()
    clinic.maren.press('Answer').write('Yes. See you on Friday.')
    expect(clinic.client.read()).toBe('Maren Holt writes:\n“Yes. See you on Friday.”')
    expect(clinic.chart().prompt).toEqual(prompt)
    expect(clinic.entries('message').map(({ by, data }) => [by, data.text])).toEqual([
      ['client', 'is the grey band the stronger one?'],
      ['Maren Holt', 'Yes. See you on Friday.'],
    ])
  })

  it('after a colon is passed on at once', () => {
    const clinic = new JoinedClinic()
    clinic.client.write('tell my therapist: the strap is torn')
    expect(clinic.maren.read()).toContain('“the strap is torn”')
    expect(clinic.asks).toBeNull()
  })

  it('that sounds like a command is a message still', () => {
    const clinic = new JoinedClinic()
    clinic.client.write('message my therapist').write('can we change the times of the visits?')
    expect(clinic.maren.read()).toContain('“can we change the times of the visits?”')
    expect(clinic.asks).toBeNull()
  })

  it.each([
    ['on duty', '2026-01-05T18:00:00Z', 'It may take a while until it is read.'],
    ['at the weekend', '2026-01-10T12:00:00Z', 'Maren Holt is back: Mon 12 Jan, 08:00. If it cannot wait, call 020 913 0104.'],
  ])('says when it may be read: %s', (_title, at, said) => {
    const clinic = new JoinedClinic()
    clinic.rig.moveTo(at)
    clinic.client.skip().write('message my therapist: a question for next week')
    expect(clinic.client.read()).toContain(said)
  })

  it.each(['help', 'help me please'])('does not swallow "%s"', (text) => {
    const clinic = new JoinedClinic()
    clinic.client.write('message my therapist').skip().write(text)
    expect(clinic.client.read()).toContain('call 112 now')
    expect(clinic.asks).toBe('message.text')
  })

  it('with a sign in it alarms instead', () => {
    const clinic = new JoinedClinic()
    clinic.client.write('message my therapist').write('since this morning half my face is numb, can you call me?')
    expect(clinic.chart().lock?.level).toBe('emergency')
    expect(clinic.maren.read()).toContain('can you call me?')
  })

  it('that is too long is asked again, and "stop" sends nothing', () => {
    const clinic = new JoinedClinic()
    clinic.client.write('message my therapist').write('the band '.repeat(100))
    expect(clinic.asks).toBe('message.text')
    clinic.client.skip().write('stop')
    expect(clinic.client.read()).toContain('Nothing was passed on.')
    expect(clinic.maren.read()).toBe('')
  })

  it('is heard while training is locked', () => {
    const clinic = new JoinedClinic()
    clinic.client.write('my left hand is numb').write('message my therapist').write('when can you call me today?')
    expect(clinic.maren.read()).toContain('“when can you call me today?”')
  })
})

describe('a client who leaves', () => {
  it('is asked once whether that is meant, and then nothing more', () => {
    const clinic = new JoinedClinic()
    clinic.client.write('unsubscribe').press('Leave for good').write('it takes too much time')
    expect(clinic.chart().standing).toBe('withdrawn')
    expect(timersOf(clinic)).toEqual([])
    expect(clinic.client.read()).toContain('I will not ask you anything more')
    expect(clinic.maren.read()).toContain('Reason given: “it takes too much time”')
    clinic.rig.moveTo('2026-02-20T12:00:00Z')
    expect(clinic.client.read()).toBe('')
    expect(clinic.entries('consent').at(-1)?.data).toEqual({ isGiven: false, reason: 'it takes too much time' })
  })

  it('in the middle of a session has what was done kept', () => {
    const clinic = inFirstSet()
    clinic.doSet()
    clinic.client.skip().write('I want to stop for good')
    expect(clinic.client.read()).toContain('All right, we stop here.')
    expect(clinic.asks).toBe('withdrawal.sure')
    clinic.client.press('Leave for good', 'Leave it empty')
    expect(clinic.chart().pending?.ladders[0]?.sets.map(({ report }) => report?.pain ?? null)).toEqual([1, null, null])
    expect(clinic.chart().standing).toBe('withdrawn')
    expect(clinic.chart().session).toBeNull()
  })

  it.each([['Stay', 'active'], ['Take a break', 'active']])('and chooses "%s" has not left', (label, standing) => {
    const clinic = new JoinedClinic()
    clinic.client.write('leave the programme').press(label)
    expect(clinic.chart().standing).toBe(standing)
    expect(clinic.asks).toBe(label === 'Stay' ? null : 'pause.why')
  })

  it('leaves an alert open, which goes on being sent', () => {
    const clinic = new JoinedClinic()
    clinic.client.write('my left hand is numb').write('unsubscribe').press('Leave for good', 'Leave it empty')
    clinic.maren.skip()
    clinic.rig.pass({ hours: 3 })
    expect(clinic.maren.read()).toContain('URGENT')
    expect(clinic.chart().alerts.map(({ level }) => level)).toContain('urgent')
    clinic.maren.press('Clear the lock …')
    expect(clinic.rig.desk(brandAs('desk-00000000aaaa')).conversations.at(-1)?.flow).toBe('clearing')
  })

  it('is still heard when something is wrong', () => {
    const clinic = new JoinedClinic()
    clinic.client.write('unsubscribe').press('Leave for good', 'Leave it empty').skip().write('I cannot speak properly')
    expect(clinic.client.read()).toContain('Call 112 now')
    expect(clinic.maren.read()).toContain('EMERGENCY')
  })

  it('and writes "ready" is asked for agreement anew, and trains again', () => {
    const clinic = new JoinedClinic()
    clinic.client.write('unsubscribe').press('Leave for good', 'Leave it empty').skip().write('hello')
    expect(clinic.client.read()).toContain('If you want to come back, write "ready".')
    clinic.client.write('ready').press('Go on', 'Yes', 'Yes', 'Yes')
    expect(clinic.chart().standing).toBe('active')
    expect(nextReminder(clinic)).toBe('2026-01-05T18:00:00.000Z')
  })
})
