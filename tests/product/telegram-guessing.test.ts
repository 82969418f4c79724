// Whoever guesses at the code or at invitations, and what it costs those who have one.
import { describe, expect, it } from 'vitest'
import { chartOf, client, mondayNoon, openClinic, settleIn, stranger, therapist } from './telegram-people.ts'

const unusable = 'This invitation cannot be used.'
const tooMany = 'This was not right five times.'
const wrongToken = (number: number): string => `/start ${String(number).padStart(32, 'w')}`

describe('wrong invitations', () => {
  it('of one chat are answered five times, the last time with how long it stays silent, and then not even the right one opens', async () => {
    const clinic = await openClinic()
    await settleIn(clinic)
    const { token } = await clinic.enrol()
    for (let number = 1; number <= 7; number += 1) await clinic.say(stranger, wrongToken(number))
    await clinic.say(stranger, `/start ${token}`)
    await clinic.say(stranger, 'hello?')

    expect(clinic.sentTo(stranger).map(({ text }) => /^[^.]+\./.exec(text)?.[0])).toEqual([...Array<string>(4).fill(unusable), tooMany])
    expect((await chartOf(clinic)).contact).toBeNull()

    await clinic.advanceTo(mondayNoon + 3_600_000)
    await clinic.say(stranger, `/start ${token}`)
    expect((await chartOf(clinic)).contact).toEqual({ channel: 'telegram', address: String(stranger) })
  })

  it('of many chats are told to the therapists once, and keep nobody out who has the right one', async () => {
    const clinic = await openClinic()
    await settleIn(clinic)
    const { token } = await clinic.enrol()
    const told = await clinic.during(therapist, async () => {
      for (let number = 1; number <= 60; number += 1) await clinic.say(stranger + number, wrongToken(number))
    })
    expect(told.map(({ text }) => text.slice(0, 76))).toEqual(['For your information: 20 wrong codes or invitations came in within an hour. '])
    expect(clinic.sentTo(stranger + 20)).toHaveLength(1)
    expect(clinic.sentTo(stranger + 21)).toEqual([])
    expect(clinic.log.lines.filter(({ event }) => event === 'tried-often')).toEqual([{ level: 'warn', event: 'tried-often', fields: { tries: 20 } }])

    await clinic.say(client, `/start ${token}`)
    expect((await chartOf(clinic)).contact).toEqual({ channel: 'telegram', address: String(client) })
  })
})

describe('wrong codes while a clinic has nobody yet', () => {
  it('close the chat with the fifth, also to the right code', async () => {
    const clinic = await openClinic()
    for (let number = 0; number < 5; number += 1) await clinic.say(stranger, `00000000A${number}`)
    await clinic.say(stranger, clinic.claim ?? '')
    expect(clinic.sentTo(stranger).at(-1)?.text.slice(0, tooMany.length)).toBe(tooMany)
    expect(await clinic.store.heads('desk')).toEqual([])
  })

  it('of many chats make every code wait for an hour, and a new start gives a new one', async () => {
    const clinic = await openClinic()
    const first = clinic.claim ?? ''
    for (let number = 10; number < 30; number += 1) await clinic.say(stranger + number, `00000000${number}`)
    await clinic.say(therapist, first)
    expect(clinic.sentTo(therapist)).toEqual([])

    await clinic.restart()
    await clinic.say(therapist, first)
    expect(clinic.claim).not.toBe(first)
    expect(clinic.lastTo(therapist).text).toMatch(/^Hello\. I only talk with people who have an invitation\./)
    await settleIn(clinic)
    expect((await clinic.store.heads('desk')).map(({ name }) => name)).toEqual(['Maren Holt'])
  })
})

describe('a chat that nobody invited', () => {
  it('is answered five times an hour, however much it writes', async () => {
    const clinic = await openClinic()
    await settleIn(clinic)
    for (let number = 0; number < 40; number += 1) await clinic.say(stranger, `please ${number}`)
    expect(clinic.sentTo(stranger)).toHaveLength(5)
    await clinic.advanceTo(mondayNoon + 3_600_000)
    await clinic.say(stranger, 'please')
    expect(clinic.sentTo(stranger)).toHaveLength(6)
  })
})
