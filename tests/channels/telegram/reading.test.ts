import type { Update } from 'grammy/types'
import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import { handledKinds } from '#src/channels/telegram/read-update.ts'
import { turnUntil } from '#tests/support/event-loop.ts'
import { accept } from '#tests/support/telegram-api.ts'
import { createTelegramRig } from '#tests/support/telegram-rig.ts'
import type { TelegramRig } from '#tests/support/telegram-rig.ts'
import {
  channelMemberUpdate,
  contentUpdate,
  editUpdate,
  groupMemberUpdate,
  groupPressUpdate,
  groupUpdate,
  migrationUpdate,
  pressUpdate,
  reachUpdate,
  textUpdate,
} from '#tests/support/telegram-updates.ts'

const id = 'telegram:update:1'
const from = { channel: 'telegram', address: '11' }
const group = { channel: 'telegram', address: '-500' }

let rig: TelegramRig
beforeEach(() => {
  rig = createTelegramRig()
})
afterEach(() => rig.close())

/** Everything received of these updates, once the server was told that all are handled. */
async function read(...updates: Update[]): Promise<readonly unknown[]> {
  const presses = updates.filter(({ callback_query: press }) => press !== undefined)
  rig.api.plan('answerCallbackQuery', ...presses.map(() => accept))
  rig.api.push(...updates)
  await rig.start()
  await turnUntil(() => rig.api.polls.length > 1 && rig.api.queue.length === 0, 'every update confirmed')
  return rig.received
}

describe('reading what a person sends', () => {
  it.each<[string, Update, unknown]>([
    ['a text', textUpdate(1, 11, 'about 3'), { kind: 'message', id, from, text: 'about 3' }],
    ['a text of two lines', textUpdate(1, 11, 'one\ntwo'), { kind: 'message', id, from, text: 'one\ntwo' }],
    [
      'control characters, which fall away',
      textUpdate(1, 11, 'arm\tnumb\u0000\u0001\r\n\u007f\u0085yes'),
      { kind: 'message', id, from, text: 'arm numb\nyes' },
    ],
    [
      'markup, which is nothing special',
      textUpdate(1, 11, '<b>&_*[]()~>#+-=|{}.!\\'),
      { kind: 'message', id, from, text: '<b>&_*[]()~>#+-=|{}.!\\' },
    ],
    ['another command', textUpdate(1, 11, '/stop'), { kind: 'message', id, from, text: '/stop' }],
    ['a changed text', editUpdate(1, 11, 'numb'), { kind: 'message', id, from, text: 'numb', isEdit: true }],
    ['a picture', contentUpdate(1, 11, 'photo'), { kind: 'unreadable', id, from }],
    ['a voice note', contentUpdate(1, 11, 'voice'), { kind: 'unreadable', id, from }],
    ['a sticker', contentUpdate(1, 11, 'sticker'), { kind: 'unreadable', id, from }],
    ['a place', contentUpdate(1, 11, 'location'), { kind: 'unreadable', id, from }],
    ['a contact', contentUpdate(1, 11, 'contact'), { kind: 'unreadable', id, from }],
    [
      'words under a picture',
      contentUpdate(1, 11, 'captionedPhoto'),
      { kind: 'message', id, from, text: 'my arm is numb' },
    ],
    ['a press', pressUpdate(1, 11, 'pain:3'), { kind: 'press', id, from, data: 'pain:3' }],
    ['a block', reachUpdate(1, 11, 'kicked'), { kind: 'reach', id, from, isReachable: false }],
    ['an unblock', reachUpdate(1, 11, 'member'), { kind: 'reach', id, from, isReachable: true }],
  ])('reads %s', async (_, update, inbound) => {
    expect(await read(update)).toEqual([inbound])
  })

  it('passes over what merely happens in a chat', async () => {
    expect(await read(contentUpdate(1, 11, 'timer'))).toEqual([])
  })

  it('has an update to read for every kind it asks the server for (check 15)', async () => {
    const updates = [
      textUpdate(1, 11, 'a'),
      editUpdate(2, 11, 'b'),
      pressUpdate(3, 11, 'c'),
      reachUpdate(4, 11, 'member'),
    ]
    const kinds = updates.map((update) => Object.keys(update)[1])
    expect(kinds).toEqual(handledKinds)
    expect((await read(...updates)).length).toBe(handledKinds.length)
  })
})

describe('reading a start link', () => {
  const longest = 'a'.repeat(64)
  it.each<[string, string, unknown]>([
    ['with an invitation', '/start Ab_9-z', { kind: 'join', id, from, token: 'Ab_9-z' }],
    ['addressed to the bot', '/start@Neck_Sessions_Bot Ab9', { kind: 'join', id, from, token: 'Ab9' }],
    ['with the longest invitation', `/start ${longest}`, { kind: 'join', id, from, token: longest }],
    [
      'with one too long, cut so that it matches none',
      `/start ${longest}bc`,
      { kind: 'join', id, from, token: `${longest}b` },
    ],
    ['with one altered', '/start Ab9 or 1=1', { kind: 'join', id, from, token: 'Ab9 or 1=1' }],
    ['with nothing', '/start', { kind: 'message', id, from, text: '/start' }],
    ['with nothing, addressed to the bot', '/start@neck_sessions_bot', { kind: 'message', id, from, text: '/start' }],
    ['of another bot', '/start@other_bot Ab9', { kind: 'message', id, from, text: '/start@other_bot Ab9' }],
  ])('reads one %s (check 26)', async (_, text, inbound) => {
    expect(await read(textUpdate(1, 11, text))).toEqual([inbound])
  })
})

describe('groups and channels (check 23)', () => {
  it('tells of a group once and takes nothing that is said there', async () => {
    const updates = [
      groupMemberUpdate(1, -500, 'member'),
      groupUpdate(2, -500, 'pain 6'),
      groupPressUpdate(3, -500, 'pain:6'),
      groupUpdate(4, -500, '/start Ab9'),
      groupMemberUpdate(5, -500, 'left'),
    ]
    expect(await read(...updates)).toEqual([{ kind: 'group', id, from: group }])
  })

  it('tells of each group and channel by itself', async () => {
    expect(await read(groupUpdate(1, -500, 'hello'), channelMemberUpdate(2, -600))).toEqual([
      { kind: 'group', id, from: group },
      { kind: 'group', id: 'telegram:update:2', from: { channel: 'telegram', address: '-600' } },
    ])
  })

  it('tells of the group again when the first telling failed', async () => {
    let isDown = true
    rig.api.push(groupUpdate(1, -500, 'hello'))
    await rig.start(async () => {
      if (isDown) throw new Error('broken')
    })
    await rig.receive(1)
    isDown = false
    await rig.time.pass(250)
    expect(await rig.receive(2)).toEqual({ kind: 'group', id, from: group })
  })

  it('follows a group to its new address without telling of it again', async () => {
    const to = { channel: 'telegram', address: '-900' }
    expect(await read(migrationUpdate(1, -500, -900), groupUpdate(2, -900, 'hello'))).toEqual([
      { kind: 'moved', id, from: group, to },
    ])
  })
})
