import type { Update } from 'grammy/types'
import { readFailure, toFatal } from './api-failure.ts'
import type { Connection } from './connection.ts'
import { describeFailure } from './describe-failure.ts'
import { handledKinds } from './read-update.ts'
import type { TelegramLog } from './telegram-note.ts'
import type { UpdateIntake } from './update-intake.ts'
import { waitAtMost } from './wait-for.ts'
import type { Wait } from './wait-for.ts'

/** The server's own limit for a long poll is 50 s (https://github.com/tdlib/telegram-bot-api). */
const pollSeconds = 30
/** A poll not answered this long after its time is taken for a dead line. */
const pollGraceMs = 15_000
/**
 * While an update is unfinished the server answers every poll at once with what it has not been told to forget, so the
 * loop gives the quick ones this long; nobody else waits longer for a chat that is stuck.
 */
const busyPauseMs = 250
/** A server that has more gives so many at once (https://core.telegram.org/bots/api#getupdates, `limit`). */
const fullAnswer = 100
const firstBackOffMs = 1_000
const longestBackOffMs = 30_000

export interface PollingOptions {
  readonly connection: Connection
  readonly intake: UpdateIntake
  readonly wait: Wait
  readonly log: TelegramLog
  /** Called for every poll that was answered. */
  readonly onHeard: () => void
  /** What the server had at the time of a poll is handled: nothing older is still to come. */
  readonly onCaughtUp: () => void
  readonly stopping: AbortSignal
}

/** Polls until the stop. Rejects with a ChannelError when the server will not have it. */
export async function pollUpdates(options: PollingOptions): Promise<void> {
  const { intake, wait, onHeard, onCaughtUp, stopping } = options
  // What was missed is known at once, and not only when somebody writes or a long poll ends.
  let isFirst = true
  while (!stopping.aborted) {
    const offset = intake.offset()
    const timeout = isFirst ? 0 : pollSeconds
    const updates = await keepTrying(() => poll(options, offset, timeout), options)
    if (updates === null) return
    isFirst = false
    onHeard()
    for (const update of updates) void intake.accept(update)
    if (updates.length < fullAnswer) void intake.settled().then(onCaughtUp)
    if (intake.isBusy()) await waitAtMost(busyPauseMs, intake.settled(), wait, stopping)
    // A server that repeats what it was told to forget is not asked at full speed.
    else if (updates.length > 0 && intake.offset() === offset) await wait(busyPauseMs, stopping)
  }
}

function poll({ connection, stopping }: PollingOptions, offset: number | undefined, timeout: number): Promise<Update[]> {
  const request = { ...(offset === undefined ? {} : { offset }), timeout, allowed_updates: handledKinds }
  return connection.call((api, signal) => api.getUpdates(request, signal), {
    limitMs: pollSeconds * 1000 + pollGraceMs,
    signal: stopping,
  })
}

/** Tells the server what is handled, and nothing that is not. */
export async function confirmHandled({ connection, intake, log }: PollingOptions, limitMs: number): Promise<void> {
  const offset = intake.offset()
  if (offset === undefined) return
  const request = { offset, limit: 1, timeout: 0, allowed_updates: handledKinds }
  try {
    await connection.call((api, signal) => api.getUpdates(request, signal), { limitMs })
  } catch (error) {
    log({ event: 'call-failed', ...describeFailure(error) })
  }
}

/** Repeats a call until it is answered; null at the stop. Rejects with a ChannelError where repeating is no use. */
export async function keepTrying<T>(
  request: () => Promise<T>,
  { wait, log, stopping }: Pick<PollingOptions, 'wait' | 'log' | 'stopping'>,
): Promise<T | null> {
  for (let fails = 0; !stopping.aborted; fails += 1) {
    try {
      return await request()
    } catch (error) {
      if (stopping.aborted) return null
      const failure = readFailure(error)
      if (failure === null) throw error
      const fatal = toFatal(failure)
      if (fatal !== null) throw fatal
      log({ event: 'call-failed', ...describeFailure(error) })
      await wait(failure.retryAfterMs ?? Math.min(firstBackOffMs * 2 ** fails, longestBackOffMs), stopping)
    }
  }
  return null
}
