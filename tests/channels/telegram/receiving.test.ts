import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import { StoreError } from '#src/ports/store.ts'
import { turnUntil } from '#tests/support/event-loop.ts'
import { accept, refuse } from '#tests/support/telegram-api.ts'
import { createTelegramRig } from '#tests/support/telegram-rig.ts'
import type { TelegramRig } from '#tests/support/telegram-rig.ts'
import { contentUpdate, pressUpdate, textUpdate } from '#tests/support/telegram-updates.ts'

const ana = { channel: 'telegram', address: '11' }
const ben = { channel: 'telegram', address: '12' }
const said = (updateId: number, from: typeof ana, text: string) => ({
  kind: 'message',
  id: `telegram:update:${updateId}`,
  from,
  text,
})

let rig: TelegramRig
beforeEach(() => {
  rig = createTelegramRig()
})
afterEach(() => rig.close())

/** A receive that holds back what one chat sends until it is let go. */
function holdBack(address: string) {
  let release = (): void => {}
  const gate = new Promise<void>((resolve) => {
    release = resolve
  })
  const finished: string[] = []
  return {
    finished,
    release: () => release(),
    receive: async (inbound: { id: string; from: { address: string } }) => {
      if (inbound.from.address === address) await gate
      finished.push(inbound.id)
    },
  }
}

const offsets = () => rig.api.polls.map((poll) => (poll as { offset?: number }).offset)
const pollsFrom = (offset: number) => turnUntil(() => offsets().at(-1) === offset, `a poll from ${offset}`)

describe('receiving from Telegram', () => {
  it('hands a repeated update on once, while it is under way and after it is handled (check 1)', async () => {
    const held = holdBack('11')
    const repeated = textUpdate(100, 11, '2')
    rig.api.push(...Array.from({ length: 10 }, () => repeated))
    await rig.start(held.receive)
    await rig.receive(1)
    await rig.time.pass(250)
    await turnUntil(() => rig.api.polls.length === 2, 'a poll while the update is unfinished')
    held.release()
    await pollsFrom(101)
    rig.api.push(textUpdate(101, 11, '3'))
    await rig.receive(2)
    expect(rig.received).toEqual([said(100, ana, '2'), said(101, ana, '3')])
    expect(offsets()[1]).toBe(100)
  })

  it('hands on an update whose id is far below the last one, and goes on from there (check 2)', async () => {
    rig.api.push(textUpdate(900_000, 11, 'before'))
    await rig.start()
    await pollsFrom(900_001)
    rig.api.push(textUpdate(40, 11, 'after'))
    await pollsFrom(41)
    expect(rig.received).toEqual([said(900_000, ana, 'before'), said(40, ana, 'after')])
    expect(rig.api.queue).toEqual([])
  })

  it('tries an update that always throws five times, parks it and goes on with the chat (check 5)', async () => {
    const failure = Object.assign(new Error('the text: my arm is numb'), { code: 'flow-broken' })
    rig.api.push(textUpdate(1, 11, 'bad'), textUpdate(2, 11, 'good'))
    await rig.start(async (inbound) => {
      if (inbound.id === 'telegram:update:1') throw failure
    })
    for (const ms of [250, 1_000, 4_000, 16_000]) await rig.time.pass(ms)
    await rig.receive(6)
    await pollsFrom(3)
    expect(rig.received.map(({ id }) => id)).toEqual([
      ...Array.from({ length: 5 }, () => 'telegram:update:1'),
      'telegram:update:2',
    ])
    expect(rig.parked).toEqual([[1, 'flow-broken']])
    expect(rig.notes).toEqual([
      ...Array.from({ length: 5 }, () => ({ event: 'update-failed', code: 'flow-broken', updateId: 1 })),
      { event: 'update-parked', code: 'flow-broken', updateId: 1 },
    ])
  })

  it.each<[string, unknown, string]>([
    ['a code that is a sentence', Object.assign(new Error('a'), { code: 'my arm is numb' }), 'unknown'],
    ['no code', new TypeError('my arm is numb'), 'TypeError'],
    ['no error at all', 'my arm is numb', 'unknown'],
  ])('logs no text of a failure with %s (check 41)', async (_, failure, code) => {
    rig.api.push(textUpdate(1, 11, 'my arm is numb'))
    await rig.start(() => Promise.reject(failure))
    await turnUntil(() => rig.notes.length === 1, 'a note')
    expect(rig.notes).toEqual([{ event: 'update-failed', code, updateId: 1 }])
  })

  it('parks nothing while the store is away, however often it has to try', async () => {
    let isAway = true
    rig.api.push(textUpdate(1, 11, '2'))
    await rig.start(async () => {
      if (isAway) throw new StoreError('full', 'The disc is full')
    })
    for (const ms of [250, 1_000, 4_000, 5_000, 5_000, 5_000]) {
      // No poll may be on its way while more time passes than it is given.
      await turnUntil(() => rig.time.remaining().includes(250), 'the pause between two polls')
      await rig.time.pass(ms)
    }
    await rig.receive(7)
    isAway = false
    await rig.time.pass(5_000)
    await pollsFrom(2)
    expect({ tries: rig.received.length, parked: rig.parked }).toEqual({ tries: 8, parked: [] })
  })

  it('keeps one chat in order and does not let it delay another by a second (check 6)', async () => {
    const held = holdBack('11')
    rig.api.push(textUpdate(1, 11, 'first'), contentUpdate(2, 11, 'photo'), textUpdate(3, 11, 'third'))
    await rig.start(held.receive)
    await rig.receive(1)
    rig.api.push(textUpdate(4, 12, 'other'))
    const pushedAt = rig.time.now()
    await rig.time.pass(250)
    expect(await rig.receive(2)).toEqual(said(4, ben, 'other'))
    expect(rig.time.now() - pushedAt).toBeLessThan(1_000)
    held.release()
    await pollsFrom(5)
    expect(held.finished).toEqual([4, 1, 2, 3].map((id) => `telegram:update:${id}`))
  })

  it('lets the server forget no more than what is handled, whichever chat finished first', async () => {
    const held = holdBack('11')
    rig.api.push(textUpdate(7, 12, 'early'), textUpdate(8, 11, 'slow'), textUpdate(9, 12, 'quick'))
    await rig.start(held.receive)
    await turnUntil(() => held.finished.length === 2, 'the quick ones')
    await rig.time.pass(250)
    await pollsFrom(8)
    expect(rig.api.queue.map(({ update_id: id }) => id)).toEqual([8, 9])
    held.release()
    await pollsFrom(10)
    expect(rig.api.queue).toEqual([])
  })

  it('answers a press at once while the queue of its chat is busy (check 7)', async () => {
    const held = holdBack('11')
    rig.api.plan('answerCallbackQuery', accept)
    rig.api.push(textUpdate(1, 11, 'slow'), pressUpdate(2, 11, 'pain:3'))
    await rig.start(held.receive)
    await turnUntil(() => rig.api.calls.length === 3, 'the answer to the press')
    expect({ finished: held.finished, waited: rig.time.now() }).toEqual({ finished: [], waited: 0 })
    expect(rig.api.calls.at(-1)).toEqual({
      method: 'answerCallbackQuery',
      payload: { callback_query_id: 'press-2' },
    })
    held.release()
    expect(await rig.receive(2)).toEqual({ kind: 'press', id: 'telegram:update:2', from: ana, data: 'pain:3' })
  })

  it('counts a press whose answer came too late (check 8)', async () => {
    const tooOld = 'Bad Request: query is too old and response timeout expired or query ID is invalid'
    rig.api.plan('answerCallbackQuery', refuse(400, tooOld))
    rig.api.push(pressUpdate(2, 11, 'pain:3'))
    await rig.start()
    await pollsFrom(3)
    await turnUntil(() => rig.notes.length === 1, 'a note of the failed answer')
    expect(rig.received).toEqual([{ kind: 'press', id: 'telegram:update:2', from: ana, data: 'pain:3' }])
    expect(rig.notes).toEqual([{ event: 'call-failed', method: 'answerCallbackQuery', code: '400' }])
  })

  it('counts a press whose answer never came through', async () => {
    rig.api.plan('answerCallbackQuery', { kind: 'silence' })
    rig.api.push(pressUpdate(2, 11, 'pain:3'))
    await rig.start()
    await pollsFrom(3)
    await rig.time.pass(5_000)
    await turnUntil(() => rig.notes.length === 1, 'the answer given up')
    expect(rig.received.length).toBe(1)
    expect(rig.notes).toEqual([{ event: 'call-failed', code: 'network' }])
  })

  it('hands on a second press of the same button under an id of its own (check 9)', async () => {
    rig.api.plan('answerCallbackQuery', accept, accept)
    rig.api.push(pressUpdate(2, 11, 'pain:3'), pressUpdate(3, 11, 'pain:3'))
    await rig.start()
    await pollsFrom(4)
    expect(rig.received).toEqual([
      { kind: 'press', id: 'telegram:update:2', from: ana, data: 'pain:3' },
      { kind: 'press', id: 'telegram:update:3', from: ana, data: 'pain:3' },
    ])
  })
})
