import { describe, expect, it } from 'vitest'
import { chartOf, clearLock, client, goToFirstSet, joinClient, keepExchange, mondaySession, openClinic, openStaffedClinic, settleIn, stranger, therapist } from './telegram-people.ts'

const minuteMs = 60_000

/** The line that asks or says the most, by which a long message is known. */
function lastLines(texts: readonly { readonly text: string }[]): readonly string[] {
  return texts.map(({ text }) => text.split('\n').at(-1) ?? '')
}

describe('a clinic on Telegram', () => {
  it('is claimed by the code of its start, once, by whoever then settles in', async () => {
    const clinic = await openClinic()
    const code = clinic.claim ?? ''
    await settleIn(clinic)
    await clinic.say(stranger, code)

    expect(code).toMatch(/^[0-9A-F]{10}$/)
    expect(lastLines(clinic.sentTo(therapist))).toEqual([
      'You are now a therapist of this clinic. What name should your clients see?',
      'Which time zone are you in? Area and city, as in Europe/Dublin.',
      'On which days are you on duty?',
      'From when to when are you on duty?',
      'Thank you, Maren Holt. Write "enrol" to enrol a client, "clients" to look at one, "measure" to enter a strength test, "invite" to bring in a colleague, "help" for help.',
    ])
    expect(clinic.sentTo(stranger).map(({ text }) => text)).toEqual([expect.stringMatching(/^Hello\. I only talk with people who have an invitation\./)])
    await clinic.restart()
    expect(clinic.claim).toBeNull()
  })

  it('leads a client from the invitation through consent to a reminder at the wall time of the plan, once', async () => {
    const clinic = await openClinic()
    await settleIn(clinic)
    await joinClient(clinic)
    await clinic.advanceTo(mondaySession - 1)
    const before = clinic.sentTo(client)
    await clinic.advanceTo(mondaySession + 90 * minuteMs)

    expect(lastLines(before)).toEqual([
      'Some chat networks can read chats with a helper like me. Please do not send more than I ask for.',
      'I store your answers, your training and your messages. Maren Holt and the clinic can see them. You can say stop at any time. Do you agree?',
      'Your time zone is set to Europe/Dublin. Is that right?',
      'I will ask you at 18:00 on these days: Mon, Wed, Fri. Is the time right for you?',
      'Thank you, all set. Your first session: Mon 1 Jun, 18:00. You can write "help" at any time. In an emergency call 112.',
    ])
    expect(clinic.sentTo(client).slice(before.length)).toEqual([
      {
        chat: client,
        text: 'Hello Orla Tiernan. It is time for your neck session. Have a chair, your phone and what you train with within reach. Are you ready?',
        buttons: [
          { label: 'Ready', data: 'p:5:ready' },
          { label: 'Later', data: 'p:5:later' },
          { label: 'Not today', data: 'p:5:not-today' },
        ],
      },
    ])
    expect(clinic.lastTo(therapist).text).toBe('Orla Tiernan has joined: time zone Europe/Dublin, sessions at 18:00.')
    expect(await chartOf(clinic)).toMatchObject({ standing: 'active', contact: { channel: 'telegram', address: '500' } })
  })

  it('runs a session by presses and typed words, asks the next morning and prescribes the changed dose', async () => {
    const clinic = await openStaffedClinic()
    await goToFirstSet(clinic)
    expect(clinic.lastTo(client).text).toContain('Set 1 of 3 – two-hand press: 5 holds of 5 seconds, push 3 out of 10')
    const session = await clinic.during(client, async () => {
      // Three ways to answer: presses, words, and the pain straight away.
      for (const label of ['Done', '1', 'No', '3']) await clinic.press(client, label)
      for (const words of ['done', 'hardly any, 1', 'no, it stayed clean', 'three more']) await clinic.say(client, words)
      await clinic.say(client, '0')
      await clinic.press(client, 'No')
      await clinic.press(client, '4')
      await clinic.press(client, '5')
    })
    await clinic.advanceTo(mondaySession + 15 * 60 * minuteMs)
    await clinic.say(client, '1')
    await goToFirstSet(clinic, mondaySession + 48 * 60 * minuteMs)

    expect(lastLines(session)).toEqual([
      'Put everything down first. What was the worst pain in your neck, head or arm during that set, 0 to 10? Tired or warm muscles are not pain.',
      'Did your chin, shoulders or body move to help?',
      'How many more could you have done, just as clean? One hold counts as one.',
      'Sit tall, chin level, push slowly, keep on breathing.',
      'Put everything down first. What was the worst pain in your neck, head or arm during that set, 0 to 10? Tired or warm muscles are not pain.',
      'Did your chin, shoulders or body move to help?',
      'How many more could you have done, just as clean? One hold counts as one.',
      'Sit tall, chin level, push slowly, keep on breathing.',
      'Did your chin, shoulders or body move to help?',
      'How many more could you have done, just as clean? One hold counts as one.',
      'One last thing: how hard was the whole session? 0 is rest, 3 is moderate, 5 is hard, 7 is very hard, 10 is as hard as it can get.',
      'Thank you. That is noted.',
    ])
    expect(clinic.lastTo(client).text).toContain('Set 1 of 3 – two-hand press: 5 holds of 6 seconds, push 3 out of 10')
    const chart = await chartOf(clinic)
    await clinic.say(client, 'wait, my left arm went numb and tingly just now')
    await clinic.press(therapist, 'Acknowledge')
    await clearLock(clinic)
    keepExchange(clinic)

    expect((await chartOf(clinic)).lock).toBeNull()
    expect(lastLines(clinic.sentTo(therapist)).slice(-6)).toEqual([
      expect.stringMatching(/^Orla Tiernan: acknowledged, no more re-sending\./),
      'Orla Tiernan: contact recorded. The lock stays until you clear it.',
      'Clearing the lock of Orla Tiernan. How was the client assessed?',
      'Why may Orla Tiernan train again? One sentence for the record.',
      expect.stringMatching(/^Where does training start again\? The usual restart is: two-hand press: 3 sets of 5 holds of \d seconds/),
      'Orla Tiernan: cleared. Training starts again lower, and without progress for 2 sessions. The client has been told.',
    ])
    expect(chart.lastDecisions).toEqual([{ ladder: 'extension', decision: { kind: 'progress', reasons: [{ rule: 'clean', numbers: { reserve: 2 } }] } }])
    expect(chart.history).toEqual([{ on: '2026-06-01', setsDone: 3, setsAsked: 3, worstPain: 1, worstControl: 'steady' }])
    expect(clinic.log.lines).toEqual([])
  })

  it('goes on with the same question after a restart in the middle of a set', async () => {
    const clinic = await openStaffedClinic()
    await goToFirstSet(clinic)
    await clinic.press(client, 'Done')
    const asked = await chartOf(clinic)
    const unasked = await clinic.during(client, () => clinic.restart())
    expect(unasked).toEqual([])
    expect(await chartOf(clinic)).toEqual(asked)

    const after = await clinic.during(client, async () => {
      await clinic.press(client, '2')
      await clinic.restart()
      await clinic.say(client, 'a little')
    })

    expect(lastLines(after)).toEqual([
      'Did your chin, shoulders or body move to help?',
      'How many more could you have done, just as clean? One hold counts as one.',
    ])
    expect((await chartOf(clinic)).session?.underWay).toEqual({ isFinished: true, pain: 2, control: 'shaky', reserve: null, better: {} })
  })

  it('sends a reminder that fell due while it was down once, and not a day later', async () => {
    const clinic = await openStaffedClinic()
    await clinic.stop()
    clinic.clock.jump(mondaySession + 30 * minuteMs - clinic.clock.now())
    const soon = await clinic.during(client, () => clinic.start())
    await clinic.stop()
    clinic.clock.jump(3 * 24 * 60 * minuteMs)
    const late = await clinic.during(client, () => clinic.start())

    expect(lastLines(soon)).toEqual([expect.stringContaining('It is time for your neck session.')])
    expect(late).toEqual([])
  })
})
