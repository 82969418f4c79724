// The whole product over a real folder and a network that answers at once: an update goes through grammY's parsing, the
// channel's router, the delivery and the store, and what is owed goes out through grammY again.
import type { Transformer } from 'grammy'
import type { Update } from 'grammy/types'
import { createApp } from '#src/app.ts'
import type { Chart } from '#src/chart/chart.ts'
import { documentMigrations } from '#src/chart/document-migrations.ts'
import { amendMessage } from '#src/channels/telegram/amend-message.ts'
import { createConnection, type Connection } from '#src/channels/telegram/connection.ts'
import { sendMessage } from '#src/channels/telegram/send-message.ts'
import { createUpdateIntake } from '#src/channels/telegram/update-intake.ts'
import { createUpdateRouter } from '#src/channels/telegram/update-router.ts'
import type { Instant } from '#src/domain/identifier.ts'
import type { Product } from '#src/handler.ts'
import type { Channel, Receive } from '#src/ports/channel.ts'
import type { Store } from '#src/ports/store.ts'
import { createLowdbStore } from '#src/stores/lowdb/lowdb-store.ts'
import { nodeFileSystem, type FileSystem } from '#src/stores/lowdb/file-system.ts'
import { ManualClock } from '#tests/support/manual-clock.ts'
import { RecordingLog } from '#tests/support/recording-log.ts'
import { botUser, pressUpdate } from '#tests/support/telegram-updates.ts'
import { chartOf, chatOf } from './history.ts'

export const benchToken = '4242:bench'
const apiRoot = 'https://bot-api.test'
/** Between two answers of anybody, on the clinic's clock. */
const secondsBetween = 5

/** Answers every call at once, as a Bot API server would. */
export function instantApi(): Transformer {
  let messages = 0
  const answer = (method: string, payload: unknown): unknown => {
    if (method !== 'sendMessage') return true
    const { chat_id: chat, text } = payload as { chat_id: number; text: string }
    messages += 1
    return { message_id: messages, date: 0, chat: { id: chat, type: 'private' }, text }
  }
  return async (_previous, method, payload) => ({ ok: true, result: answer(method, payload) }) as never
}

export interface AnsweringClinic {
  readonly store: Store
  /** Files that were made durable so far: documents, and closed volumes of a record. */
  readonly written: { documents: number; volumes: number }
  /** The update by which a client gives the next answer that goes well, the clock moved on to it. */
  nextAnswer(client: number): Promise<Update>
  /** Resolves when the answer is stored and everything owed for it is out. */
  take(update: Update): Promise<void>
  close(): Promise<void>
}

/** The button for every question of a session that goes well. */
const buttons: Readonly<Record<string, string>> = {
  ready: 'ready', screen: 'none', morning: 'forgotten', 'worst-since': '1', 'pain-now': '1', 'warm-up': 'done',
  set: 'done', pain: '1', control: 'steady', reserve: '3', effort: '3',
}

export async function openAnsweringClinic(product: Product, folder: string, now: Instant): Promise<AnsweringClinic> {
  const written = { documents: 0, volumes: 0 }
  const store = createLowdbStore({ folder, steps: documentMigrations, files: countWrites(written) })
  await store.open()
  const clock = new ManualClock(now)
  const connection = createConnection({ token: benchToken, apiRoot, wait: clock.wait })
  connection.bot.botInfo = botUser as typeof connection.bot.botInfo
  connection.bot.api.config.use(instantApi())
  const { channel, intake } = openLine(connection, clock)
  const app = createApp({ product, store, channels: [channel], clock, log: new RecordingLog(), wait: clock.wait })
  await app.start((error) => {
    throw error
  })
  await app.delivery.idle()
  let updates = 1000

  return {
    store,
    written,
    async nextAnswer(client) {
      await clock.advance(secondsBetween * 1000)
      await app.delivery.idle()
      updates += 1
      const chart = await store.read<Chart>(chartOf(client))
      const top = chart?.conversations.at(-1)
      const value = top?.flow === 'session' ? buttons[top.state] : undefined
      if (value === undefined) throw new Error(`no answer is known for ${top?.flow ?? 'nothing'}.${top?.state ?? 'asked'}`)
      return pressUpdate(updates, chatOf(client), `p:${chart?.prompt?.number ?? 0}:${value}`)
    },
    async take(update) {
      intake.accept(update)
      await intake.settled()
      await app.delivery.idle()
      await intake.answered()
    },
    async close() {
      await app.stop()
      await store.close()
    },
  }
}

/** The channel's own parts around grammY, without its polling. No limits: the clock stands still while one answer runs. */
function openLine(connection: Connection, clock: ManualClock): { channel: Channel; intake: ReturnType<typeof createUpdateIntake> } {
  let receiver: Receive = () => Promise.reject(new Error('not started'))
  connection.bot.use(createUpdateRouter((inbound) => receiver(inbound)))
  const stopping = new AbortController().signal
  const options = { connection, wait: clock.wait, log: () => {}, stopping }
  const channel: Channel = {
    name: 'telegram',
    async start(receive) {
      receiver = receive
    },
    stop: async () => {},
    send: (to, message) => sendMessage(to, message, options),
    amend: (to, ref, text) => amendMessage(to, ref, text, options),
    invitationLink: async (token) => `https://chat.test/${token}`,
  }
  return { channel, intake: createUpdateIntake({ ...options, onParked: (_id, code) => failParked(code) }) }
}

function failParked(code: string): never {
  throw new Error(`an answer was parked (${code})`)
}

function countWrites(written: AnsweringClinic['written']): FileSystem {
  return {
    ...nodeFileSystem,
    async create(path, mode) {
      const file = await nodeFileSystem.create(path, mode)
      const kind = /[/\\](documents|volumes)[/\\]/.exec(path)?.[1] as keyof typeof written | undefined
      const sync = async (): Promise<void> => {
        if (kind !== undefined) written[kind] += 1
        await file.sync()
      }
      return { ...file, sync }
    },
  }
}
