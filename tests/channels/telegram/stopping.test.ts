import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import { turnUntil } from '#tests/support/event-loop.ts'
import { createTelegramRig } from '#tests/support/telegram-rig.ts'
import type { TelegramRig } from '#tests/support/telegram-rig.ts'
import { textUpdate } from '#tests/support/telegram-updates.ts'

let rig: TelegramRig
beforeEach(() => {
  rig = createTelegramRig()
})
afterEach(() => rig.close())

const queued = () => rig.api.queue.map(({ update_id: id }) => id)

describe('stopping', () => {
  it('lets what runs finish, confirms it, and leaves the rest to the server (check 4)', async () => {
    let release = (): void => {}
    const gate = new Promise<void>((resolve) => {
      release = resolve
    })
    const finished: string[] = []
    rig.api.push(textUpdate(1, 11, 'running'), textUpdate(2, 11, 'waiting'), textUpdate(3, 12, 'done'))
    await rig.start(async (inbound) => {
      if (inbound.from.address === '11') await gate
      finished.push(inbound.id)
    })
    await turnUntil(() => finished.length === 1, 'the other chat')
    const stopped = rig.channel.stop()
    release()
    await stopped
    expect(finished).toEqual(['telegram:update:3', 'telegram:update:1'])
    expect(rig.received.map(({ id }) => id)).toEqual(['telegram:update:1', 'telegram:update:3'])
    expect(rig.api.polls.at(-1)).toMatchObject({ offset: 2, limit: 1, timeout: 0 })
    expect(queued()).toEqual([2, 3])
  })

  it('takes up what it left when it is started again', async () => {
    let isDown = true
    rig.api.push(textUpdate(1, 11, '2'))
    const receive = async (): Promise<void> => {
      if (isDown) throw new Error('broken')
    }
    await rig.start(receive)
    await turnUntil(() => rig.notes.length === 1, 'a failed try')
    await rig.channel.stop()
    expect({ parked: rig.parked, queued: queued() }).toEqual({ parked: [], queued: [1] })
    isDown = false
    await rig.start(receive)
    await turnUntil(() => queued().length === 0, 'the update confirmed')
    expect(rig.received.map(({ id }) => id)).toEqual(['telegram:update:1', 'telegram:update:1'])
  })

  it('ends in 4 s when the line is dead, and keeps to itself that it could not confirm', async () => {
    rig.api.push(textUpdate(1, 11, '2'))
    await rig.start()
    await turnUntil(() => rig.api.polls.length === 2, 'the second poll')
    rig.api.plan('getUpdates', { kind: 'silence' })
    const stopped = rig.channel.stop()
    await turnUntil(() => rig.api.polls.length === 3, 'the last poll')
    await rig.time.pass(4_000)
    await stopped
    expect(rig.notes).toEqual([{ event: 'call-failed', code: 'network' }])
  })

  it('ends a start that waits for an answer', async () => {
    rig.api.plan('getMe', { kind: 'silence' })
    const started = rig.start()
    await turnUntil(() => rig.api.calls.length === 1, 'the greeting')
    await rig.channel.stop()
    await started
    expect({ polls: rig.api.polls, failures: rig.failures }).toEqual({ polls: [], failures: [] })
  })

  it('polls no more once it has stopped, and confirms nothing where nothing came', async () => {
    await rig.start()
    await turnUntil(() => rig.api.polls.length === 1, 'the first poll')
    await rig.channel.stop()
    await rig.channel.stop()
    rig.api.plan('sendMessage', { kind: 'accept' })
    await rig.channel.send({ channel: 'telegram', address: '11' }, { text: 'Until then', buttons: [] }, 'reply')
    expect(rig.api.polls.length).toBe(1)
  })
})
