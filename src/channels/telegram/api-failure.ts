import { GrammyError, HttpError } from 'grammy'
import { ChannelError } from '#src/ports/channel.ts'

export type FailureReason = 'not-modified' | 'chat-not-found' | 'other'

/** What may be known of a failed call outside this file: grammY's errors hold the token and the texts. */
export interface ApiFailure {
  readonly method: string | null
  /** The Bot API's error code; null when no answer of its came back. */
  readonly code: number | null
  readonly reason: FailureReason
  readonly retryAfterMs: number | null
}

// The Bot API tells two kinds of 400 apart by nothing but their description, so this is the one place that reads it:
// https://github.com/tdlib/telegram-bot-api, telegram-bot-api/Client.cpp (wording from memory).
const reasonMarks: readonly (readonly [FailureReason, string])[] = [
  ['not-modified', 'message is not modified'],
  ['chat-not-found', 'chat not found'],
]

/** Null when the error came from no API call and is a mistake of ours. */
export function readFailure(error: unknown): ApiFailure | null {
  if (error instanceof HttpError) return { method: null, code: null, reason: 'other', retryAfterMs: null }
  if (!(error instanceof GrammyError)) return null
  const retryAfterSeconds = error.parameters.retry_after
  return {
    method: error.method,
    code: error.error_code,
    reason: error.error_code === 400 ? readReason(error.description) : 'other',
    retryAfterMs: retryAfterSeconds === undefined ? null : retryAfterSeconds * 1000,
  }
}

function readReason(description: string): FailureReason {
  const lowered = description.toLowerCase()
  return reasonMarks.find(([, mark]) => lowered.includes(mark))?.[0] ?? 'other'
}

/** Failures after which receiving cannot go on by itself. A malformed token is answered with 404. */
const fatalByCode: Readonly<Record<number, readonly [code: string, line: string]>> = {
  401: ['token-refused', 'Telegram refused the token. Copy it again from BotFather into TELEGRAM_BOT_TOKEN.'],
  404: ['token-refused', 'Telegram does not know the token. Copy it again from BotFather into TELEGRAM_BOT_TOKEN.'],
  409: [
    'conflict',
    'Another process receives for this Telegram bot, or a webhook was set. Stop the other one, or make a new token.',
  ],
}

export function toFatal(failure: ApiFailure): ChannelError | null {
  const fatal = failure.code === null ? undefined : fatalByCode[failure.code]
  return fatal === undefined ? null : new ChannelError(...fatal)
}
