import { ChannelError } from '#src/ports/channel.ts'
import type { Connection } from './connection.ts'
import { asChannelError, describeFailure } from './describe-failure.ts'
import { greetOnce } from './greet-once.ts'
import { confirmHandled, keepTrying, pollUpdates } from './poll-updates.ts'
import type { TelegramLog } from './telegram-note.ts'
import { createUpdateIntake } from './update-intake.ts'
import type { Wait } from './wait-for.ts'

/** So that a stop with a dead line stays within the ten seconds that a supervisor gives. */
const confirmLimitMs = 4_000

export interface SessionOptions {
  readonly connection: Connection
  readonly wait: Wait
  readonly log: TelegramLog
  readonly onParked: (updateId: number, code: string) => void
  readonly onHeard: () => void
  readonly onCaughtUp: () => void
}

/** One stretch of receiving, from a start to its stop. */
export interface TelegramSession {
  /** Aborted at the stop. */
  readonly stopping: AbortSignal
  /** Rejects with a ChannelError if it is no use to begin; `failed` is called if it is later no use to go on. */
  begin(failed: (error: ChannelError) => void): Promise<void>
  /** Lets what runs finish, then tells the server what was handled. */
  end(): Promise<void>
}

export function createPollingSession({ connection, wait, log, onParked, onHeard, onCaughtUp }: SessionOptions): TelegramSession {
  const stop = new AbortController()
  const intake = createUpdateIntake({ connection, wait, log, onParked, stopping: stop.signal })
  const polling = { connection, intake, wait, log, onHeard, onCaughtUp, stopping: stop.signal }
  let hasFailed = false
  let polled: Promise<void> = Promise.resolve()

  async function run(isGreeted: boolean, failed: (error: ChannelError) => void): Promise<void> {
    try {
      // The line may be down when the machine starts; then the greeting is made up for.
      if (!isGreeted) await keepTrying(() => greet(connection, stop.signal), polling)
      await pollUpdates(polling)
    } catch (error) {
      hasFailed = true
      log({ event: 'receiving-ended', ...describeFailure(error) })
      failed(asChannelError(error))
    }
  }

  return {
    stopping: stop.signal,
    async begin(failed) {
      const isGreeted = await greetOnce(() => greet(connection, stop.signal), log)
      polled = run(isGreeted, failed)
    },
    async end() {
      stop.abort()
      await polled
      await intake.settled()
      await Promise.all([intake.answered(), hasFailed ? undefined : confirmHandled(polling, confirmLimitMs)])
    },
  }
}

/** Learns who we are, and that no webhook takes our updates. */
async function greet({ bot, call }: Connection, signal: AbortSignal): Promise<void> {
  bot.botInfo = await call((api, callSignal) => api.getMe(callSignal), { signal })
  const webhook = await call((api, callSignal) => api.getWebhookInfo(callSignal), { signal })
  if (webhook.url !== undefined && webhook.url !== '') {
    throw new ChannelError(
      'webhook-set',
      'A webhook is set for this Telegram bot, so polling gets nothing. Remove it with the API method deleteWebhook.',
    )
  }
}
