import { createTelegramChannel } from '#src/channels/telegram/telegram-channel.ts'
import type { TelegramChannel } from '#src/channels/telegram/telegram-channel.ts'
import type { TelegramNote } from '#src/channels/telegram/telegram-note.ts'
import type { Webhook } from '#src/channels/telegram/webhook-route.ts'
import type { ChannelError, Inbound, Receive } from '#src/ports/channel.ts'
import { turnUntil } from './event-loop.ts'
import { apiRoot, createTelegramApi, token } from './telegram-api.ts'
import type { TelegramApi } from './telegram-api.ts'
import { createVirtualWait } from './virtual-wait.ts'
import type { VirtualWait } from './virtual-wait.ts'

/** The channel between a virtual server and whatever a test lets receive. */
export interface TelegramRig {
  readonly api: TelegramApi
  readonly time: VirtualWait
  readonly channel: TelegramChannel
  /** Every try, also those that failed. */
  readonly received: readonly Inbound[]
  readonly failures: readonly ChannelError[]
  readonly notes: readonly TelegramNote[]
  readonly parked: readonly (readonly [updateId: number, code: string])[]
  /** How often the line was heard. */
  heard(): number
  start(receive?: Receive): Promise<void>
  /** Turns until so many have been received, then gives the last of them. */
  receive(count: number): Promise<Inbound>
  close(): Promise<void>
}

export function createTelegramRig(webhook: Webhook | null = null): TelegramRig {
  const time = createVirtualWait()
  const api = createTelegramApi(time)
  const received: Inbound[] = []
  const failures: ChannelError[] = []
  const notes: TelegramNote[] = []
  const parked: [number, string][] = []
  let heard = 0
  const channel = createTelegramChannel({
    token,
    apiRoot,
    webhook,
    wait: time.wait,
    log: (note) => void notes.push(note),
    onParked: (updateId, code) => void parked.push([updateId, code]),
    onHeard: () => (heard += 1),
  })
  return {
    api,
    time,
    channel,
    received,
    failures,
    notes,
    parked,
    heard: () => heard,
    start: (receive = async () => {}) =>
      channel.start(
        (inbound) => {
          received.push(inbound)
          return receive(inbound)
        },
        (error) => void failures.push(error),
      ),
    async receive(count) {
      await turnUntil(() => received.length >= count, `${count} inbound`)
      return received[count - 1]!
    },
    async close() {
      await channel.stop()
      api.close()
    },
  }
}
