import { describe, expect, it } from 'vitest'
import type { TelegramClinic } from '#tests/support/telegram-clinic.ts'
import { chartOf, clearLock, client, colleague, goToFirstSet, inviteColleague, joinClient, mondaySession, openClinic, openStaffedClinic, settleIn, therapist } from './telegram-people.ts'

const minuteMs = 60_000
const words = 'my left hand has gone numb and tingly'

async function raise(clinic: TelegramClinic): Promise<void> {
  await goToFirstSet(clinic)
  await clinic.press(client, 'Done')
  await clinic.say(client, words)
}

function labelsOf(message: { readonly buttons: readonly { readonly label: string }[] }): readonly string[] {
  return message.buttons.map(({ label }) => label)
}

describe('a red flag in a client’s words', () => {
  it('stops the session, says what to do and brings the therapist the words, the moment and what was said', async () => {
    const clinic = await openStaffedClinic()
    const before = clinic.sentTo(therapist).length
    await raise(clinic)

    const told = [
      'Stop training now and put everything down.',
      'Nobody is on duty right now, not until Tue 2 Jun, 08:00. Your therapist has been told, but call 020 913 0104 today and do not wait for an answer here.',
      'If you get sudden weakness, a numb face, trouble with sight, speech or swallowing, or the worst headache of your life: call 112 at once.',
    ]
    expect(clinic.lastTo(client)).toEqual({ chat: client, text: told.join('\n'), buttons: [] })
    const [alert, ...others] = clinic.sentTo(therapist).slice(before)
    expect(others).toEqual([])
    expect(alert?.text.split('\n')).toEqual([
      '⚠ URGENT, same day – Orla Tiernan',
      'New or spreading numbness or tingling of an arm or hand',
      `Client’s words: “${words}”`,
      'Taken for a sign: “hand has gone numb”',
      'When: Mon 1 Jun, 18:00 (Europe/Dublin); your time Mon 1 Jun, 18:00 (Europe/Dublin)',
      expect.stringMatching(/^During: set 1 of 3 – two-hand press/),
      'Client was told:',
      ...told,
      expect.stringMatching(/^Last sessions: 2026-06-01: 0\/3 sets/),
      'Client’s numbers: emergency 112, out of hours 020 913 0104',
    ])
    expect(labelsOf(alert!)).toEqual(['Acknowledge', 'I have spoken with the client', 'Clear the lock …'])
    expect(await chartOf(clinic)).toMatchObject({ lock: { level: 'urgent' }, session: null, conversations: [] })
  })

  it('keeps training paused until the therapist has cleared it with a reason, and then starts lower', async () => {
    const clinic = await openStaffedClinic()
    await raise(clinic)
    const paused = await clinic.during(client, () => clinic.advanceTo(mondaySession + 48 * 60 * minuteMs))
    await clinic.say(client, 'may I train?')
    const whilePaused = clinic.lastTo(client).text
    const passedOn = clinic.lastTo(therapist).text
    await clinic.press(therapist, 'Acknowledge')
    const acknowledged = clinic.lastTo(therapist).text
    await clearLock(clinic)

    expect(paused).toEqual([])
    expect(whilePaused).toMatch(/^Your training is paused until your therapist has spoken with you\./)
    expect(passedOn).toBe('Orla Tiernan wrote while training is paused: “may I train?”')
    expect(acknowledged).toBe(
      'Orla Tiernan: acknowledged, no more re-sending. Please reach the client within 4 hours and then press "I have spoken with the client", or the alert opens again.',
    )
    expect(clinic.lastTo(client).text).toBe(
      'Your therapist has cleared you to train again. We start easier than before. The safety check comes first next time.',
    )
    const { lock, alerts, states } = await chartOf(clinic)
    expect({ lock, alerts, without: states.extension?.sessionsWithoutProgress }).toEqual({ lock: null, alerts: [], without: 2 })
    const cleared = (await clinic.store.entries((await chartOf(clinic)).id)).filter((entry) => entry.kind === 'cleared')
    expect(cleared).toMatchObject([{ by: 'Maren Holt', data: { assessed: 'seen', reason: 'Examined today, no sign left.', dose: 'usual', level: 'urgent' } }])
    await goToFirstSet(clinic, mondaySession + 4 * 24 * 60 * minuteMs)
    expect(clinic.lastTo(client).text).toContain('Set 1 of 3 – two-hand press: 5 holds of 4 seconds, push 3 out of 10')
  })

  it('after the therapist’s duty goes to the second contact as well, and again until a person acknowledges it', async () => {
    const clinic = await openClinic()
    await settleIn(clinic)
    await inviteColleague(clinic)
    await joinClient(clinic)
    await goToFirstSet(clinic)
    const before = clinic.sent().length
    const sendings = (chat: number): readonly string[] =>
      clinic.sent().slice(before).filter((sent) => sent.chat === chat).map(({ text }) => text.split('\n')[0] ?? '')
    await clinic.say(client, 'the worst headache of my life just started')
    await clinic.press(client, 'I cannot call')
    await clinic.advanceTo(mondaySession + 55 * minuteMs)
    await clinic.press(colleague, 'Acknowledge')
    await clinic.advanceTo(mondaySession + 110 * minuteMs)

    const title = '⚠ EMERGENCY – Orla Tiernan'
    const sent = [title, title, `${title} (sending 2)`, `${title} (sending 3)`, `${title} (sending 4)`]
    expect(sendings(therapist)).toEqual([...sent, expect.stringMatching(/^Orla Tiernan: Idris Vane has acknowledged the alert/)])
    expect(sendings(colleague)).toEqual([...sent, expect.stringMatching(/^Orla Tiernan: acknowledged/)])
    expect(clinic.sentTo(client).map(({ text }) => text).filter((text) => text.includes('Call 112 now'))).toHaveLength(1)
    const toTherapist = clinic.sent().slice(before).filter((sent) => sent.chat === therapist)
    expect(toTherapist.map(({ text }) => text.includes('Client since: CANNOT CALL for help'))).toEqual([false, true, true, true, true, false])
  })

  it('goes to everybody else at once where the therapist cannot be reached', async () => {
    const clinic = await openClinic()
    await settleIn(clinic)
    await inviteColleague(clinic)
    await joinClient(clinic)
    clinic.api.plan('sendMessage', { kind: 'accept' }, { kind: 'refuse', code: 403, description: 'Forbidden: bot was blocked by the user' })
    const toColleague = await clinic.during(colleague, () => clinic.say(client, words))

    expect(toColleague.map(({ text }) => text.split('\n').slice(0, 2))).toEqual([
      ['Maren Holt could not be reached. This comes to you instead:', '⚠ URGENT, same day – Orla Tiernan'],
    ])
  })
})
