import { readdir } from 'node:fs/promises'
import { describe, expect, it } from 'vitest'
import type { Update } from 'grammy/types'
import type { Receive } from '#src/ports/channel.ts'
import { createBrowserChannel } from '#src/channels/browser/browser-channel.ts'
import { createDisk, openSocket, type PageSocket } from '#tests/channels/browser/browser-clinic.ts'
import { turnUntil } from '#tests/support/event-loop.ts'
import { RecordingLog } from '#tests/support/recording-log.ts'
import { createTelegramRig } from '#tests/support/telegram-rig.ts'
import { pressUpdate, textUpdate } from '#tests/support/telegram-updates.ts'
import { describeChannel, type ChannelUnderTest } from './channel-contract.ts'

async function makeTelegram(): Promise<ChannelUnderTest> {
  const rig = createTelegramRig()
  rig.api.serve('sendMessage', 'editMessageText', 'answerCallbackQuery')
  let updateId = 100
  const push = async (make: (updateId: number) => Update): Promise<void> => rig.api.push(make((updateId += 1)))
  const lastPoll = (): number | undefined => (rig.api.polls.at(-1) as { offset?: number } | undefined)?.offset
  return {
    channel: rig.channel,
    person: { channel: 'telegram', address: '11' },
    badAddress: '@somebody',
    start: (receive) => rig.start(receive),
    write: (text) => push((id) => textUpdate(id, 11, text)),
    join: (token) => push((id) => textUpdate(id, 11, `/start ${token}`)),
    press: (data) => push((id) => pressUpdate(id, 11, data)),
    async isAcknowledged() {
      const polls = rig.api.polls.length
      // The pause after which the server is asked again while an update is unfinished.
      await rig.time.pass(250)
      await turnUntil(() => rig.api.polls.length > polls, 'another poll')
      return lastPoll() === updateId + 1
    },
    acknowledged: () => turnUntil(() => lastPoll() === updateId + 1, 'a poll past the last update'),
    dispose: () => rig.close(),
  }
}

async function makeBrowser(): Promise<ChannelUnderTest> {
  const channel = createBrowserChannel({
    host: '127.0.0.1',
    port: 0,
    secret: null,
    panes: async () => ({ clients: [{ address: 'client-1', name: 'Ana' }], therapists: [] }),
    clockControl: null,
    log: new RecordingLog(),
    ...createDisk(),
  })
  let page: PageSocket | null = null
  let sent = 0
  const idOf = (number: number): string => `sent-${String(number).padStart(4, '0')}`
  const send = async (frame: object): Promise<void> => {
    page ??= await openSocket(channel.address())
    page.send({ id: idOf((sent += 1)), from: 'client-1', ...frame })
  }
  return {
    channel,
    person: { channel: 'browser', address: 'client-1' },
    badAddress: 'Not an address',
    start: (receive: Receive) => channel.start(receive, () => undefined),
    write: (text) => send({ kind: 'say', text }),
    join: (token) => send({ kind: 'join', token }),
    async press(data) {
      const asked = await channel.send({ channel: 'browser', address: 'client-1' }, { text: 'Ready?', buttons: [[{ label: 'Yes', data }]] }, 'reply')
      await send({ kind: 'press', of: asked.kind === 'sent' ? asked.ref : null, data })
    },
    async isAcknowledged() {
      // A frame that is answered at once comes after whatever was sent before it.
      page?.send({ kind: 'look' })
      await page?.next('clock')
      return page?.frames.some((frame) => frame.kind === 'taken') === true
    },
    acknowledged: async () => void (await page?.next('taken', (frame) => frame.id === idOf(sent))),
    async dispose() {
      await page?.close()
      await channel.stop()
    },
  }
}

const makers = { browser: makeBrowser, telegram: makeTelegram }

describe('the contract of channels', () => {
  it('is run over every channel there is', async () => {
    const places = await readdir(new URL('../../src/channels/', import.meta.url), { withFileTypes: true })
    const folders = places.filter((place) => place.isDirectory()).map(({ name }) => name)
    expect(folders.sort()).toEqual(Object.keys(makers))
  })
})

for (const [name, make] of Object.entries(makers)) describeChannel(name, make)
