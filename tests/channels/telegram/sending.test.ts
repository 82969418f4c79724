import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import type { Button, Message } from '#src/domain/message.ts'
import { ChannelError } from '#src/ports/channel.ts'
import { turnUntil } from '#tests/support/event-loop.ts'
import { accept, refuse, token } from '#tests/support/telegram-api.ts'
import type { ApiReply } from '#tests/support/telegram-api.ts'
import { createTelegramRig } from '#tests/support/telegram-rig.ts'
import type { TelegramRig } from '#tests/support/telegram-rig.ts'

const ana = { channel: 'telegram', address: '11' }
const plain = { link_preview_options: { is_disabled: true } }

let rig: TelegramRig
beforeEach(() => {
  rig = createTelegramRig()
})
afterEach(() => rig.close())

const send = (text: string, buttons: Message['buttons'] = []) => rig.channel.send(ana, { text, buttons }, 'reply')
const sentTexts = () => rig.api.calls.map(({ payload }) => (payload as { text: string }).text)

describe('sending', () => {
  it('sends plain text with its buttons and gives back where it stands', async () => {
    rig.api.plan('sendMessage', accept)
    const numbers: Button[] = ['0', '1'].map((label) => ({ label, data: `pain:${label}` }))
    const rows = [numbers, [], [{ label: 'Stop', data: 'stop' }]]
    expect(await send('How much does it hurt now?', rows)).toEqual({ kind: 'sent', ref: '11:1001' })
    expect(rig.api.calls).toEqual([
      {
        method: 'sendMessage',
        payload: {
          chat_id: 11,
          text: 'How much does it hurt now?',
          ...plain,
          reply_markup: {
            inline_keyboard: [
              [
                { text: '0', callback_data: 'pain:0' },
                { text: '1', callback_data: 'pain:1' },
              ],
              [{ text: 'Stop', callback_data: 'stop' }],
            ],
          },
        },
      },
    ])
  })

  it('sends what a person wrote as it was, with no parse mode (check 18)', async () => {
    const text = 'You wrote: <b>&_*[]()~>#+-=|{}.!\\'
    rig.api.plan('sendMessage', accept)
    await send(text)
    expect(rig.api.calls).toEqual([{ method: 'sendMessage', payload: { chat_id: 11, text, ...plain } }])
  })

  // Limits: https://core.telegram.org/bots/api#inlinekeyboardbutton
  it('sends a button of 64 bytes and gives one of 65 back as refused (check 17)', async () => {
    const widest = 'ü'.repeat(32)
    rig.api.plan('sendMessage', accept, accept)
    expect(await send('a', [[{ label: 'x', data: widest }]])).toEqual({ kind: 'sent', ref: '11:1001' })
    expect(await send('b', [[{ label: 'x', data: `${widest}a` }]])).toEqual({ kind: 'refused', code: '400' })
  })

  const lengths = [4_096, 4_097, 20_000]
  it.each(lengths)('sends %i units whole, its buttons under the last part (check 16)', async (length) => {
    const words = 'Slowly, and only as far as it stays comfortable. 👩🏽‍⚕️ '
    const text = words.repeat(Math.ceil(length / words.length)).slice(0, length).replace(/\p{Surrogate}|.$/gu, '!')
    const count = Math.ceil(text.length / 4_096)
    rig.api.plan('sendMessage', ...Array.from({ length: count }, () => accept))
    expect(await send(text, [[{ label: 'Go on', data: 'on' }]])).toEqual({ kind: 'sent', ref: `11:${1000 + count}` })
    expect(sentTexts().join('')).toBe(text)
    expect(rig.api.calls.map(({ payload }) => 'reply_markup' in (payload as object))).toEqual(
      Array.from({ length: count }, (_, index) => index === count - 1),
    )
  })

  it('sees the later parts through, so that the first is not sent twice', async () => {
    rig.api.plan('sendMessage', accept, refuse(429, 'Too Many Requests: retry after 3', { retry_after: 3 }), accept)
    const sending = send('a'.repeat(5_000))
    await rig.time.pass(3_000)
    expect(await sending).toEqual({ kind: 'sent', ref: '11:1002' })
    expect(sentTexts()).toEqual(['a'.repeat(4_096), 'a'.repeat(904), 'a'.repeat(904)])
  })

  it('refuses an address that is no chat id before anything is sent', async () => {
    const everybody = { channel: 'telegram', address: '@everybody' }
    const result = await rig.channel.send(everybody, { text: 'a', buttons: [] }, 'reply')
    expect(result).toEqual({ kind: 'refused', code: 'address' })
  })
})

describe('what becomes of a message that is not taken', () => {
  // Descriptions: https://github.com/tdlib/telegram-bot-api, telegram-bot-api/Client.cpp, from memory
  it.each<[string, ApiReply, unknown]>([
    [
      'too many at once (check 19)',
      refuse(429, 'Too Many Requests: retry after 3', { retry_after: 3 }),
      { kind: 'later', afterMs: 3_000 },
    ],
    ['too many at once, no time named', refuse(429, 'Too Many Requests'), { kind: 'later', afterMs: 5_000 }],
    ['blocked (check 20)', refuse(403, 'Forbidden: bot was blocked by the user'), { kind: 'unreachable' }],
    ['an account that is gone', refuse(403, 'Forbidden: user is deactivated'), { kind: 'unreachable' }],
    ['no such chat', refuse(400, 'Bad Request: chat not found'), { kind: 'unreachable' }],
    ['another mistake', refuse(400, 'Bad Request: REPLY_MARKUP_INVALID'), { kind: 'refused', code: '400' }],
    [
      'a group under a new address (check 23)',
      refuse(400, 'Bad Request: group chat was upgraded to a supergroup chat', { migrate_to_chat_id: -900 }),
      { kind: 'refused', code: '400' },
    ],
    ['too large', refuse(413, 'Request Entity Too Large'), { kind: 'refused', code: '413' }],
    ['a refused token', refuse(401, 'Unauthorized'), { kind: 'later', afterMs: 60_000 }],
    ['a server in trouble', refuse(502, 'Bad Gateway'), { kind: 'later', afterMs: 2_000 }],
    ['a page instead of an answer', { kind: 'page', status: 504 }, { kind: 'later', afterMs: 2_000 }],
    ['a broken line', { kind: 'drop' }, { kind: 'later', afterMs: 2_000 }],
  ])('is told for %s', async (_, reply, result) => {
    rig.api.plan('sendMessage', reply)
    expect(await send('Good morning')).toEqual(result)
  })

  it('is given back for later when no answer comes in 60 s (check 25)', async () => {
    rig.api.plan('sendMessage', { kind: 'silence' })
    const sending = send('Good morning')
    await turnUntil(() => rig.api.calls.length === 1, 'the message')
    await rig.time.pass(60_000)
    expect(await sending).toEqual({ kind: 'later', afterMs: 2_000 })
  })

  it('delays nobody else (check 19)', async () => {
    rig.api.plan('sendMessage', { kind: 'silence' }, accept)
    const stuck = send('one')
    await turnUntil(() => rig.api.calls.length === 1, 'the first message')
    const ben = { channel: 'telegram', address: '12' }
    expect(await rig.channel.send(ben, { text: 'two', buttons: [] }, 'reply')).toEqual({ kind: 'sent', ref: '12:1001' })
    await rig.time.pass(60_000)
    await stuck
  })

  it('leaves no token, text or chat in what is logged (check 41)', async () => {
    rig.api.plan('sendMessage', refuse(400, 'Bad Request: secret words'), { kind: 'drop' }, refuse(403, 'Forbidden'))
    for (const text of ['my arm is numb', 'my arm is numb', 'my arm is numb']) await send(text)
    expect(rig.notes).toEqual([
      { event: 'call-failed', method: 'sendMessage', code: '400' },
      { event: 'call-failed', code: 'network' },
      { event: 'call-failed', method: 'sendMessage', code: '403' },
    ])
  })
})

describe('amending', () => {
  const amend = (ref: string, text = 'You answered 3.') => rig.channel.amend(ana, ref, text)
  const edit = { method: 'editMessageText', payload: { chat_id: 11, message_id: 77, text: 'You answered 3.', ...plain } }
  const anew = { method: 'sendMessage', payload: { chat_id: 11, text: 'You answered 3.', ...plain } }

  it('replaces the text and leaves the buttons out, which removes them (check 9)', async () => {
    rig.api.plan('editMessageText', accept)
    expect(await amend('11:77')).toEqual({ kind: 'sent', ref: '11:77' })
    expect(rig.api.calls).toEqual([edit])
  })

  it('takes an unmodified message for a success (check 22)', async () => {
    const words = 'message is not modified: specified new message content and reply markup are exactly the same'
    rig.api.plan('editMessageText', refuse(400, `Bad Request: ${words}`))
    expect(await amend('11:77')).toEqual({ kind: 'sent', ref: '11:77' })
    expect(rig.api.calls).toEqual([edit])
  })

  const refusals = ['message to edit not found', "message can't be edited"]
  it.each(refusals)('sends a new message when the %s (check 22)', async (words) => {
    rig.api.plan('editMessageText', refuse(400, `Bad Request: ${words}`))
    rig.api.plan('sendMessage', accept)
    expect(await amend('11:77')).toEqual({ kind: 'sent', ref: '11:1001' })
    expect(rig.api.calls).toEqual([edit, anew])
  })

  it('sends a new message where it does not know the old one', async () => {
    rig.api.plan('sendMessage', accept)
    expect(await amend('')).toEqual({ kind: 'sent', ref: '11:1001' })
    expect(rig.api.calls).toEqual([anew])
  })

  it.each<[string, ApiReply, unknown]>([
    [
      'for later when too many were sent',
      refuse(429, 'Too Many Requests', { retry_after: 4 }),
      { kind: 'later', afterMs: 4_000 },
    ],
    ['for later when the line breaks', { kind: 'drop' }, { kind: 'later', afterMs: 2_000 }],
    ['as unreachable when blocked', refuse(403, 'Forbidden: bot was blocked by the user'), { kind: 'unreachable' }],
  ])('gives the edit back %s, without a second message', async (_, reply, result) => {
    rig.api.plan('editMessageText', reply)
    expect(await amend('11:77')).toEqual(result)
    expect(rig.api.calls).toEqual([edit])
  })

  it('puts what does not fit into a new message', async () => {
    rig.api.plan('editMessageText', accept)
    rig.api.plan('sendMessage', accept)
    expect(await amend('11:77', 'a'.repeat(5_000))).toEqual({ kind: 'sent', ref: '11:77' })
    expect(sentTexts()).toEqual(['a'.repeat(4_096), 'a'.repeat(904)])
  })
})

describe('the invitation link', () => {
  it('leads to the bot with the invitation, asking once who the bot is', async () => {
    expect(await rig.channel.invitationLink('Ab_9-z')).toBe('https://t.me/neck_sessions_bot?start=Ab_9-z')
    expect(await rig.channel.invitationLink('other')).toBe('https://t.me/neck_sessions_bot?start=other')
    expect(rig.api.calls).toEqual([{ method: 'getMe', payload: {} }])
  })

  it.each(['', 'a b', 'a'.repeat(65)])('is refused for what no link can carry: "%s"', async (invitation) => {
    await expect(rig.channel.invitationLink(invitation)).rejects.toThrow(RangeError)
  })

  it('fails without the token in the error when the server cannot be asked', async () => {
    rig.api.plan('getMe', { kind: 'drop' })
    const error: unknown = await rig.channel.invitationLink('Ab9').catch((caught: unknown) => caught)
    expect(error).toBeInstanceOf(ChannelError)
    const { code, cause, stack } = error as ChannelError
    expect({ code, cause }).toEqual({ code: 'unreachable', cause: undefined })
    expect(stack).not.toContain(token)
  })
})
