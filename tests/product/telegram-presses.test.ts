import { describe, expect, it } from 'vitest'
import { refuse } from '#tests/support/telegram-api.ts'
import { tryPlan } from '#tests/support/telegram-clinic.ts'
import { pressUpdate, reachUpdate, textUpdate } from '#tests/support/telegram-updates.ts'
import { chartOf, client, goToFirstSet, joinClient, mondaySession, openClinic, openStaffedClinic, settleIn, therapist } from './telegram-people.ts'

const dayMs = 24 * 3_600_000
const outdated = 'That button belongs to an earlier question. Nothing was changed. Please answer the newest one.'

describe('the same update', () => {
  it('changes one thing and is answered once: ten times at once, later, and after a restart', async () => {
    const clinic = await openStaffedClinic()
    await goToFirstSet(clinic)
    const press = pressUpdate(clinic.nextUpdateId(), client, clinic.dataOf(client, 'Done'))
    const once = await clinic.during(client, () => clinic.push(...Array.from({ length: 10 }, () => press)))
    const chart = await chartOf(clinic)
    clinic.api.push(press)
    // The server is asked again only after a pause, since it was told to forget this one.
    await clinic.lineTime.pass(250)
    await clinic.settle()
    await clinic.restart()
    await clinic.push(press)

    expect(once.map(({ text }) => text)).toEqual([expect.stringMatching(/^Put everything down first\./)])
    expect(clinic.lastTo(client)).toEqual(once[0])
    expect(await chartOf(clinic)).toEqual(chart)
  })

  it('raises one alert, also where it is the very update that a crash left unconfirmed', async () => {
    const clinic = await openStaffedClinic()
    await goToFirstSet(clinic)
    const flag = textUpdate(clinic.nextUpdateId(), client, 'my left hand has gone numb')
    const alerts = await clinic.during(therapist, async () => {
      await clinic.push(flag)
      await clinic.restart()
      await clinic.push(flag)
    })
    expect(alerts.map(({ text }) => text.split('\n')[0])).toEqual(['⚠ URGENT, same day – Orla Tiernan'])
    expect((await chartOf(clinic)).alertsRaised).toBe(1)
  })
})

describe('a press', () => {
  it('that comes twice or to an earlier question changes nothing, which is said, and takes old buttons away', async () => {
    const clinic = await openStaffedClinic()
    await clinic.advanceTo(mondaySession)
    await clinic.press(client, 'Ready')
    const screened = await chartOf(clinic)
    const again = await clinic.during(client, () => clinic.press(client, 'Ready'))
    const earlier = await clinic.during(client, () => clinic.press(client, 'Go on'))

    expect([...again, ...earlier]).toEqual(Array(2).fill({ chat: client, text: outdated, buttons: [] }))
    expect(await chartOf(clinic)).toEqual(screened)
    const edits = clinic.api.calls.filter(({ method, payload }) => method === 'editMessageText' && (payload as { chat_id: number }).chat_id === client)
    const asked = clinic.sentTo(client).filter(({ buttons }) => buttons.length > 0)
    expect(edits.map(({ payload }) => 'reply_markup' in (payload as object))).toEqual(Array(asked.length - 1).fill(false))
  })

  it('counts although the server finds it too old to be answered', async () => {
    const clinic = await openStaffedClinic()
    await clinic.advanceTo(mondaySession)
    clinic.api.plan('answerCallbackQuery', refuse(400, 'Bad Request: query is too old and response timeout expired or query ID is invalid'))
    const next = await clinic.during(client, () => clinic.press(client, 'Ready'))
    expect(next.map(({ text }) => text)).toEqual(['First the safety check. Since last time, is any of this new or worse?'])
  })
})

describe('what a person wrote', () => {
  it('comes back as it was written, without a parse mode, and is logged nowhere', async () => {
    const clinic = await openClinic()
    await settleIn(clinic)
    const odd = '<b>&_*[]()~>#+-=|{}.!\\'
    await joinClient(clinic, { ...tryPlan, client: { ...tryPlan.client, name: odd } })
    await clinic.advanceTo(mondaySession)
    await clinic.say(client, `my arm is numb ${odd} {name}`)

    expect(clinic.sentTo(client)[0]?.text.split('.')[0]).toBe('Hello <b>&_*[]()~>#+-=|{}')
    const alert = clinic.lastTo(therapist).text.split('\n')
    expect([alert[0], alert[2]]).toEqual([`⚠ URGENT, same day – ${odd}`, `Client’s words: “my arm is numb ${odd} {name}”`])
    expect(clinic.api.calls.filter(({ payload }) => 'parse_mode' in (payload as object) || 'entities' in (payload as object))).toEqual([])
    expect(clinic.log.lines).toEqual([])
  })
})

describe('a client who blocks the bot', () => {
  it('gets no more reminders, the therapist is told once, and reminders come back with the client', async () => {
    const clinic = await openStaffedClinic()
    clinic.api.plan('sendMessage', refuse(403, 'Forbidden: bot was blocked by the user'))
    const told = await clinic.during(therapist, async () => {
      await clinic.advanceTo(mondaySession + 3 * dayMs)
      await clinic.push(reachUpdate(clinic.nextUpdateId(), client, 'kicked'))
    })
    const attempts = clinic.sentTo(client).filter(({ text }) => text.includes('It is time')).length
    const back = await clinic.during(therapist, () => clinic.push(reachUpdate(clinic.nextUpdateId(), client, 'member')))
    const reminded = await clinic.during(client, () => clinic.advanceTo(mondaySession + 4 * dayMs))

    expect(attempts).toBe(1)
    // What is open is told again once a day, and nothing else.
    expect(told.map(({ text }) => text).filter((text) => !text.startsWith('Open with one client:'))).toEqual([
      'Orla Tiernan cannot be reached on this network. Reminders have stopped. Please use another way.',
    ])
    expect(back.map(({ text }) => text)).toEqual(['Orla Tiernan can be reached again.'])
    expect(reminded.map(({ text }) => text.slice(0, 40))).toEqual(['Hello Orla Tiernan. It is time for your '])
  })

  it.each(['hello again', '/start'])('is reachable again when they write "%s"', async (words) => {
    const clinic = await openStaffedClinic()
    clinic.api.plan('sendMessage', refuse(403, 'Forbidden: user is deactivated'))
    await clinic.advanceTo(mondaySession + 3 * dayMs)
    const told = await clinic.during(therapist, () => clinic.say(client, words))
    const reminded = await clinic.during(client, () => clinic.advanceTo(mondaySession + 4 * dayMs))
    expect(told.map(({ text }) => text)).toEqual(['Orla Tiernan can be reached again.'])
    expect(reminded.filter(({ text }) => text.startsWith('Hello Orla Tiernan. It is time for your '))).toHaveLength(1)
  })
})
