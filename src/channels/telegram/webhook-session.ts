import type { Update } from 'grammy/types'
import { asChannelError, describeFailure } from './describe-failure.ts'
import { greetOnce } from './greet-once.ts'
import { keepTrying } from './poll-updates.ts'
import { setWebhook } from './set-webhook.ts'
import type { SessionOptions, TelegramSession } from './telegram-session.ts'
import { createUpdateIntake } from './update-intake.ts'
import { watchWebhook } from './watch-webhook.ts'
import type { Taken, Webhook } from './webhook-route.ts'

/** Below the 60 s for which an answer is awaited (https://github.com/tdlib/telegram-bot-api, issue 211). */
const answerWithinMs = 50_000

export interface WebhookSession extends TelegramSession {
  /** Resolves with `done` only once the update is committed or parked. */
  take(update: Update): Promise<Taken>
}

/** One stretch of receiving by webhook. The end leaves the webhook set: other processes go on. */
export function createWebhookSession(options: SessionOptions & { readonly webhook: Webhook }): WebhookSession {
  const { connection, log, onHeard, wait, webhook } = options
  const stop = new AbortController()
  const stopping = stop.signal
  const intake = createUpdateIntake({ ...options, stopping })
  let hasCome = false
  let watched: Promise<void> = Promise.resolve()
  const readHasCome = (): boolean => {
    const came = hasCome
    hasCome = false
    return came
  }

  async function greet(): Promise<void> {
    const { bot, call } = connection
    bot.botInfo = await call((api, signal) => api.getMe(signal), { signal: stopping })
    await setWebhook(connection, webhook, stopping)
    onHeard()
  }

  async function run(isGreeted: boolean, failed: Parameters<TelegramSession['begin']>[0]): Promise<void> {
    try {
      if (!isGreeted) await keepTrying(greet, { wait, log, stopping })
      await watchWebhook({ ...options, stopping, hasCome: readHasCome })
    } catch (error) {
      log({ event: 'receiving-ended', ...describeFailure(error) })
      failed(asChannelError(error))
    }
  }

  return {
    stopping,
    async begin(failed) {
      const isGreeted = await greetOnce(greet, log)
      watched = run(isGreeted, failed)
    },
    async end() {
      stop.abort()
      await Promise.all([watched, intake.settled()])
      await intake.answered()
    },
    async take(update) {
      // Without a name of our own the library reads nothing; another process may have set the webhook already.
      if (stopping.aborted || !connection.bot.isInited()) return 'later'
      hasCome = true
      onHeard()
      const over = new AbortController()
      const isDone = await Promise.race([intake.accept(update), wait(answerWithinMs, over.signal).then(() => false)])
      over.abort()
      return isDone ? 'done' : 'later'
    },
  }
}
