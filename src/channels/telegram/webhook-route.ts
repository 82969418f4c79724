import type { Update } from 'grammy/types'
import type { HttpAnswer, HttpRoute } from '#src/ports/http-route.ts'
import { isSameSecret } from '../is-same-secret.ts'

/** What becomes of an update that came in; `later`: not committed, the server keeps it and brings it again. */
export type Taken = 'done' | 'later'

export interface Webhook {
  /** The address that Telegram is told. */
  readonly url: string
  /** What Telegram says to be known by. */
  readonly secret: string
}

/** https://core.telegram.org/bots/api#setwebhook, secret_token. */
const secretHeader = 'x-telegram-bot-api-secret-token'

const answers: Readonly<Record<Taken, HttpAnswer>> = {
  done: { status: 200, body: '' },
  later: { status: 503, body: 'Later.\n', headers: { 'Retry-After': '1' } },
}

/** Where Telegram brings its updates: nothing is read before the secret is known, and 200 is said only of what was taken. */
export function createWebhookRoute({ url, secret }: Webhook, take: (update: Update) => Promise<Taken>): HttpRoute {
  return {
    path: new URL(url).pathname,
    method: 'POST',
    refuse(headers) {
      const given = headers[secretHeader]
      return isSameSecret(typeof given === 'string' ? given : null, secret) ? null : { status: 401, body: 'Not without the secret.\n' }
    },
    async answer(body) {
      const update = readBody(body)
      return update === null ? { status: 400, body: 'That is no update.\n' } : answers[await take(update)]
    },
  }
}

function readBody(body: string): Update | null {
  try {
    const read: unknown = JSON.parse(body)
    const isUpdate = typeof read === 'object' && read !== null && 'update_id' in read && Number.isSafeInteger(read.update_id)
    return isUpdate ? (read as Update) : null
  } catch {
    return null
  }
}
