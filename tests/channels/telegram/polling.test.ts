import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import { ChannelError } from '#src/ports/channel.ts'
import { turnUntil } from '#tests/support/event-loop.ts'
import { refuse, token } from '#tests/support/telegram-api.ts'
import type { ApiReply } from '#tests/support/telegram-api.ts'
import { createTelegramRig } from '#tests/support/telegram-rig.ts'
import type { TelegramRig } from '#tests/support/telegram-rig.ts'
import { textUpdate } from '#tests/support/telegram-updates.ts'

const handled = ['message', 'edited_message', 'callback_query', 'my_chat_member']
const longPoll = { timeout: 30, allowed_updates: handled }
const firstPoll = { ...longPoll, timeout: 0 }

let rig: TelegramRig
beforeEach(() => {
  rig = createTelegramRig()
})
afterEach(() => rig.close())

const pollCount = (count: number) => turnUntil(() => rig.api.polls.length >= count, `${count} polls`)

describe('starting and polling', () => {
  it('asks who it is and whether a webhook is set, then what there is, then polls for long', async () => {
    await rig.start()
    await pollCount(2)
    expect(rig.api.calls).toEqual([
      { method: 'getMe', payload: {} },
      { method: 'getWebhookInfo', payload: {} },
    ])
    expect(rig.api.polls).toEqual([firstPoll, longPoll])
  })

  it('names the kinds it takes in every poll, the quiet and the last one too (check 15)', async () => {
    await rig.start()
    await pollCount(2)
    await rig.time.pass(30_000)
    await pollCount(3)
    rig.api.push(textUpdate(5, 11, '2'))
    await pollCount(4)
    await rig.channel.stop()
    expect(rig.api.polls).toEqual([
      firstPoll,
      longPoll,
      longPoll,
      { offset: 6, ...longPoll },
      { offset: 6, limit: 1, timeout: 0, allowed_updates: handled },
    ])
  })

  it('refuses to start while a webhook is set, with one line and the mend (check 14)', async () => {
    rig.api.setWebhook('https://clinic.example/hook')
    await expect(rig.start()).rejects.toMatchObject({
      name: 'ChannelError',
      code: 'webhook-set',
      message:
        'A webhook is set for this Telegram bot, so polling gets nothing. Remove it with the API method deleteWebhook.',
    })
    expect(rig.api.polls).toEqual([])
  })

  it.each([
    [401, 'Unauthorized'],
    [404, 'Not Found'],
  ])('refuses to start with a token that is answered by %i, without repeating it (check 14)', async (code, words) => {
    rig.api.plan('getMe', refuse(code, words))
    const error: unknown = await rig.start().catch((caught: unknown) => caught)
    expect(error).toBeInstanceOf(ChannelError)
    const { code: named, cause, stack, message } = error as ChannelError
    expect({ named, cause }).toEqual({ named: 'token-refused', cause: undefined })
    expect(stack).not.toContain(token)
    expect(message).not.toContain('\n')
  })

  it.each([
    [401, 'Unauthorized', 'token-refused'],
    [409, 'Conflict: terminated by other getUpdates request', 'conflict'],
  ])('says once that it cannot go on when a poll is answered by %i (check 14)', async (code, words, named) => {
    rig.api.plan('getUpdates', refuse(code, words))
    await rig.start()
    await turnUntil(() => rig.failures.length > 0, 'the failure')
    await rig.channel.stop()
    expect(rig.failures.map((failure) => ({ code: failure.code, cause: failure.cause }))).toEqual([
      { code: named, cause: undefined },
    ])
    expect(rig.failures[0]!.message).not.toContain('\n')
    expect(rig.api.polls).toEqual([firstPoll])
  })

  const outages: readonly (readonly [string, ApiReply, string])[] = [
    ['the line breaks', { kind: 'drop' }, 'network'],
    ['a proxy answers with a page', { kind: 'page', status: 502 }, 'network'],
    ['the server has trouble', refuse(500, 'Internal Server Error'), '500'],
  ]
  it.each(outages)('polls again, ever later, when %s', async (_, reply, code) => {
    rig.api.plan('getUpdates', reply, reply, reply)
    await rig.start()
    for (const ms of [1_000, 2_000, 4_000]) await rig.time.pass(ms)
    await pollCount(4)
    rig.api.push(textUpdate(5, 11, '2'))
    await rig.receive(1)
    const note = { event: 'call-failed', code, ...(code === '500' ? { method: 'getUpdates' } : {}) }
    expect(rig.notes).toEqual([note, note, note])
    expect(rig.failures).toEqual([])
  })

  it('waits as long as the server asks before it polls again', async () => {
    rig.api.plan('getUpdates', refuse(429, 'Too Many Requests: retry after 7', { retry_after: 7 }))
    await rig.start()
    await rig.time.pass(7_000)
    await pollCount(2)
    expect(rig.time.now()).toBe(7_000)
  })

  it('pauses between polls to a server that repeats what it was told to forget', async () => {
    const repeated: ApiReply = { kind: 'result', result: [textUpdate(5, 11, '2')] }
    rig.api.plan('getUpdates', repeated, repeated, repeated)
    await rig.start()
    for (const polls of [2, 3]) {
      await turnUntil(() => rig.time.remaining().includes(250), 'a pause')
      expect(rig.api.polls.length).toBe(polls)
      await rig.time.pass(250)
    }
    await pollCount(4)
    expect(rig.received.length).toBe(1)
  })

  it('gives up a poll that is never answered and polls again within 90 s (check 25)', async () => {
    rig.api.plan('getUpdates', { kind: 'silence' })
    await rig.start()
    await pollCount(1)
    await rig.time.pass(45_000)
    await rig.time.pass(1_000)
    await pollCount(2)
    rig.api.push(textUpdate(5, 11, '2'))
    await rig.receive(1)
    expect(rig.time.now()).toBeLessThan(90_000)
  })

  it('starts while the line is down and makes up for the greeting', async () => {
    rig.api.plan('getMe', { kind: 'drop' }, { kind: 'drop' })
    await rig.start()
    await rig.time.pass(1_000)
    await pollCount(1)
    expect(rig.api.calls.map(({ method }) => method)).toEqual(['getMe', 'getMe', 'getMe', 'getWebhookInfo'])
  })

  it('reports a webhook that it learns of only after the line is back', async () => {
    rig.api.setWebhook('https://clinic.example/hook')
    rig.api.plan('getMe', { kind: 'drop' })
    await rig.start()
    await turnUntil(() => rig.failures.length === 1, 'the failure')
    expect(rig.failures.map(({ code }) => code)).toEqual(['webhook-set'])
  })

  it('cannot be started twice', async () => {
    await rig.start()
    await expect(rig.start()).rejects.toThrow('already started')
  })
})
