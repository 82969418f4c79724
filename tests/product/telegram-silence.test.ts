// The network keeps presses for 150 s and messages for 24 h (github.com/tdlib/telegram-bot-api): what was sent while nobody asked
// for longer is gone.
import { describe, expect, it } from 'vitest'
import { textUpdate } from '#tests/support/telegram-updates.ts'
import { client, goToFirstSet, mondaySession, openStaffedClinic, therapist } from './telegram-people.ts'

const secondMs = 1000
const hourMs = 3_600_000
const away = 'I was away for a while. If you pressed a button, it may not have reached me. Here is the question again.'
const dayAway = 'I was away for more than a day. What you wrote to me in that time may be lost.'

describe('a clinic that was down for more than 150 s with a question open', () => {
  it('asks it again once on its start, with buttons that count', async () => {
    const clinic = await openStaffedClinic()
    await clinic.advanceTo(mondaySession)
    const question = clinic.lastTo(client)
    const asked = await clinic.during(client, () => clinic.restartAfter(151 * secondMs))
    const again = await clinic.during(client, async () => {
      await clinic.restartAfter(10 * secondMs)
      await clinic.restart()
    })
    const next = await clinic.during(client, () => clinic.press(client, 'Ready'))

    expect(asked.map(({ text }) => text)).toEqual([`${away}\n\n${question.text}`])
    expect(asked[0]?.buttons.map(({ label }) => label)).toEqual(question.buttons.map(({ label }) => label))
    expect(again).toEqual([])
    expect(next.map(({ text }) => text)).toEqual(['First the safety check. Since last time, is any of this new or worse?'])
    expect(clinic.log.events()).toEqual(['presses-may-be-lost'])
  })

  it('and was not down for longer does not', async () => {
    const clinic = await openStaffedClinic()
    await clinic.advanceTo(mondaySession)
    const asked = await clinic.during(client, () => clinic.restartAfter(150 * secondMs))
    expect(asked).toEqual([])
  })

  it('reads first what the network has kept: a typed answer counts, and its question is not asked again', async () => {
    const clinic = await openStaffedClinic()
    await clinic.advanceTo(mondaySession)
    clinic.api.push(textUpdate(clinic.nextUpdateId(), client, 'ready'))
    const got = await clinic.during(client, () => clinic.restartAfter(600 * secondMs))
    expect(got.map(({ text }) => text)).toEqual(['First the safety check. Since last time, is any of this new or worse?'])
  })
})

describe('24 hours without a confirmed poll', () => {
  it('are told to operator, therapist and client, and the last question is open again', async () => {
    const clinic = await openStaffedClinic()
    await goToFirstSet(clinic)
    await clinic.press(client, 'Done')
    const told = await clinic.during(therapist, async () => {
      // The session is closed meanwhile; the next reminder brings a question of its own.
      await clinic.restartAfter(24 * hourMs)
    })
    const asked = clinic.sentTo(client).filter(({ text }) => text.startsWith(dayAway))

    expect(clinic.log.lines.filter(({ level }) => level === 'error').map(({ event }) => event)).toEqual(['unheard-for-a-day', 'everything-may-be-lost'])
    expect(told.filter(({ text }) => text.startsWith('I was away for more than a day.'))).toHaveLength(1)
    expect(asked).toHaveLength(1)
    expect(asked[0]?.text).toContain(`In an emergency call 112 now.`)
  })

  it('leave a question that was asked on the last day open again', async () => {
    const clinic = await openStaffedClinic()
    await clinic.advanceTo(mondaySession)
    const question = clinic.lastTo(client).text
    const asked = await clinic.during(client, () => clinic.restartAfter(24 * hourMs))
    const next = await clinic.during(client, () => clinic.press(client, 'Ready'))

    expect(asked.map(({ text }) => text.split('\n')[0])).toEqual([dayAway])
    expect(asked[0]?.text.endsWith(question)).toBe(true)
    expect(next.map(({ text }) => text)).toEqual(['First the safety check. Since last time, is any of this new or worse?'])
  })
})
