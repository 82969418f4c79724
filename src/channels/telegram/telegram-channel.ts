import { ChannelError } from '#src/ports/channel.ts'
import type { Channel, Receive, SendingLimits } from '#src/ports/channel.ts'
import type { HttpRoute } from '#src/ports/http-route.ts'
import { amendMessage } from './amend-message.ts'
import { createConnection } from './connection.ts'
import type { Connection } from './connection.ts'
import { describeFailure } from './describe-failure.ts'
import { telegramName } from './read-update.ts'
import { sendMessage } from './send-message.ts'
import type { TelegramLog } from './telegram-note.ts'
import { createPollingSession } from './telegram-session.ts'
import type { TelegramSession } from './telegram-session.ts'
import { createUpdateRouter } from './update-router.ts'
import { createWebhookRoute } from './webhook-route.ts'
import type { Webhook } from './webhook-route.ts'
import { createWebhookSession } from './webhook-session.ts'
import type { WebhookSession } from './webhook-session.ts'
import { waitFor } from './wait-for.ts'
import type { Wait } from './wait-for.ts'

const officialRoot = 'https://api.telegram.org'

/**
 * "Avoid sending more than one message per second" in one chat, with short bursts let through, and about 30 messages a
 * second over all (https://core.telegram.org/bots/faq). How long a burst may be is not published: ten is our choice,
 * so that somebody who answers every second is not kept waiting.
 */
export const telegramLimits: SendingLimits = {
  overall: { atMost: 30, withinMs: 1000 },
  perContact: { everyMs: 1000, burst: 10 },
}

export interface TelegramOptions {
  readonly token: string
  /** A self-hosted Bot API server; Telegram's own by default. */
  readonly apiRoot?: string | undefined
  /** Telegram brings its updates there; by default it is asked for them. */
  readonly webhook?: Webhook | null
  readonly wait?: Wait
  readonly log?: TelegramLog
  /** An update that was tried in vain and passed over: an operator must be told. */
  readonly onParked?: (updateId: number, code: string) => void
  /** A poll was answered, or an update brought: the line stands. */
  readonly onHeard?: () => void
  /** Everything that the server had at the time of a poll is handled or left. */
  readonly onCaughtUp?: () => void
  /** Telegram's own by default; null for none, where no time passes between messages. */
  readonly limits?: SendingLimits | null
}

export interface TelegramChannel extends Channel {
  /** What must be answered over HTTP for the channel to hear; none where it polls. Before the start all is put off. */
  readonly routes: readonly HttpRoute[]
}

export function createTelegramChannel(options: TelegramOptions): TelegramChannel {
  const { token, apiRoot = officialRoot, wait = waitFor, log = () => {}, onParked = () => {} } = options
  const { webhook = null, onHeard = () => {}, onCaughtUp = () => {}, limits = telegramLimits } = options
  const connection = createConnection({ token, apiRoot, wait })
  let receiver: Receive | null = null
  let session: TelegramSession | null = null
  let hooked: WebhookSession | null = null

  connection.bot.use(
    createUpdateRouter((inbound) => {
      if (receiver === null) throw new Error('An update came before the Telegram channel was started')
      return receiver(inbound)
    }),
  )
  const sending = () => ({ connection, wait, log, stopping: session?.stopping ?? null })

  function createSession(): TelegramSession {
    const shared = { connection, wait, log, onParked, onHeard, onCaughtUp }
    hooked = webhook === null ? null : createWebhookSession({ ...shared, webhook })
    return hooked ?? createPollingSession(shared)
  }

  return {
    name: telegramName,
    routes: webhook === null ? [] : [createWebhookRoute(webhook, async (update) => hooked?.take(update) ?? 'later')],
    ...(limits === null ? {} : { limits }),
    async start(receive, failed) {
      if (session !== null) throw new Error('The Telegram channel is already started')
      receiver = receive
      const begun = createSession()
      session = begun
      try {
        await begun.begin(failed)
      } catch (error) {
        session = null
        hooked = null
        throw error
      }
    },
    async stop() {
      const ending = session
      await ending?.end()
      if (session === ending) session = null
    },
    send: (to, message) => sendMessage(to, message, sending()),
    amend: (to, ref, text) => amendMessage(to, ref, text, sending()),
    async invitationLink(invitation) {
      if (!/^[A-Za-z0-9_-]{1,64}$/.test(invitation)) {
        throw new RangeError('An invitation is 1 to 64 characters of A-Z, a-z, 0-9, _ and -')
      }
      return `https://t.me/${await learnUsername(connection)}?start=${invitation}`
    },
  }
}

async function learnUsername({ bot, call }: Connection): Promise<string> {
  try {
    if (!bot.isInited()) bot.botInfo = await call((api, signal) => api.getMe(signal))
    return bot.botInfo.username
  } catch (error) {
    const { code } = describeFailure(error)
    // Without a cause: the library's error holds the token.
    throw new ChannelError('unreachable', `Telegram could not be asked for the bot's name (${code}). Try again later.`)
  }
}
