import { BotError } from 'grammy'
import type { Update } from 'grammy/types'
import { StoreError } from '#src/ports/store.ts'
import type { StoreErrorCode } from '#src/ports/store.ts'
import { createChatQueue } from './chat-queue.ts'
import type { Connection } from './connection.ts'
import { describeFailure } from './describe-failure.ts'
import type { TelegramLog } from './telegram-note.ts'
import { createUpdateLedger } from './update-ledger.ts'
import type { Wait } from './wait-for.ts'

/** Our choice: with the waits between them the five tries span 21 s. */
const triesPerUpdate = 5
const firstRetryMs = 250
const longestRetryMs = 30_000
/** A database that was away is back within seconds as a rule, and what waits may be an alarm. */
const longestStoreRetryMs = 5_000
const answerLimitMs = 5_000

/** The store being away is nobody's message's fault: such an update is tried until it is committed. */
const isStoreAway: Record<StoreErrorCode, boolean> = {
  unavailable: true,
  full: true,
  damaged: false,
  locked: false,
  newer: false,
  keyed: false,
}

export interface IntakeOptions {
  readonly connection: Connection
  readonly wait: Wait
  readonly log: TelegramLog
  readonly onParked: (updateId: number, code: string) => void
  /** Aborted at the stop: what runs is finished, what has not begun is left to the server. */
  readonly stopping: AbortSignal
}

/** Takes updates in, those of one chat in order, and knows which of them are committed or parked. */
export interface UpdateIntake {
  /**
   * Resolves with true once the update is committed or parked, and with false if the stop left it to the server. One that
   * is known already is not begun again: a repeat waits for what is under way.
   */
  accept(update: Update): Promise<boolean>
  offset(): number | undefined
  isBusy(): boolean
  /** Resolves when everything accepted so far is handled or left. */
  settled(): Promise<void>
  /** Resolves when no answer to a press is under way. */
  answered(): Promise<void>
}

export function createUpdateIntake({ connection, wait, log, onParked, stopping }: IntakeOptions): UpdateIntake {
  const ledger = createUpdateLedger()
  const queue = createChatQueue()
  const underWay = new Map<number, Promise<void>>()
  const answers = new Set<Promise<void>>()

  /** A press that is not answered keeps the person's button spinning, so this never waits for the chat's queue. */
  async function answer(callbackQueryId: string): Promise<void> {
    try {
      await connection.call((api, signal) => api.answerCallbackQuery(callbackQueryId, {}, signal), {
        limitMs: answerLimitMs,
      })
    } catch (error) {
      log({ event: 'call-failed', ...describeFailure(error) })
    }
  }

  async function handle(update: Update): Promise<void> {
    let tries = 0
    let fails = 0
    while (!stopping.aborted) {
      const failure = await attempt(update)
      if (failure === null) return ledger.finish(update.update_id)
      fails += 1
      if (!failure.isStoreAway) tries += 1
      log({ event: 'update-failed', code: failure.code, updateId: update.update_id })
      if (tries >= triesPerUpdate) return park(update.update_id, failure.code)
      await wait(Math.min(firstRetryMs * 4 ** (fails - 1), failure.isStoreAway ? longestStoreRetryMs : longestRetryMs), stopping)
    }
  }

  async function attempt(update: Update): Promise<{ code: string; isStoreAway: boolean } | null> {
    try {
      await connection.bot.handleUpdate(update)
      return null
    } catch (error) {
      const cause = error instanceof BotError ? error.error : error
      const { code } = describeFailure(cause)
      return { code, isStoreAway: cause instanceof StoreError && isStoreAway[cause.code] }
    }
  }

  function park(updateId: number, code: string): void {
    log({ event: 'update-parked', code, updateId })
    ledger.finish(updateId)
    onParked(updateId, code)
  }

  return {
    async accept(update) {
      const { update_id: id, callback_query: press } = update
      if (ledger.take(id)) {
        if (press?.id !== undefined) track(answers, answer(press.id))
        underWay.set(id, queue.run(chatOf(update), () => handle(update)).finally(() => underWay.delete(id)))
      }
      await underWay.get(id)
      return ledger.isFinished(id)
    },
    offset: () => ledger.offset(),
    isBusy: () => underWay.size > 0,
    async settled() {
      await Promise.allSettled(underWay.values())
    },
    async answered() {
      await Promise.allSettled(answers)
    },
  }
}

function track(set: Set<Promise<void>>, work: Promise<void>): void {
  set.add(work)
  const drop = (): void => void set.delete(work)
  work.then(drop, drop)
}

/** An update of a shape that nobody foresaw waits for no other; reading it fails where it can be parked. */
function chatOf(update: Update): string {
  const message = update.message ?? update.edited_message ?? update.callback_query?.message ?? update.my_chat_member
  return message?.chat?.id === undefined ? `update ${update.update_id}` : `chat ${message.chat.id}`
}
