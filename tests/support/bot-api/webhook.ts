// Deliveries to a webhook: https://core.telegram.org/bots/api#setwebhook.
import { request } from 'node:http'
import type { Update } from 'grammy/types'
import type { Clock } from '#src/ports/clock.ts'
import { Refused } from './answer.ts'
import type { ParametersOf } from './parameters.ts'
import type { UpdateStore } from './update-store.ts'

const defaultConnections = 40
const firstRetryMs = 1_000
/** tdlib/telegram-bot-api: the wait doubles up to 60-120 s, until the update is too old. */
const longestRetryMs = 60_000
/** How long the server waits for the answer (tdlib/telegram-bot-api, issue 211). */
const answerWithinMs = 60_000

export interface Delivered {
  readonly update: Update
  /** Null where the line broke or nothing came in time. */
  readonly status: number | null
}

export interface Webhook {
  readonly isSet: boolean
  set(parameters: ParametersOf<'setWebhook'>): void
  remove(): void
  info(): Readonly<Record<string, unknown>>
  /** New updates have come. */
  wake(): void
  /** Every try, in order. */
  readonly tries: readonly Delivered[]
}

export interface WebhookParts {
  readonly updates: UpdateStore
  readonly clock: Clock
  readonly wait: (ms: number, signal?: AbortSignal) => Promise<void>
}

interface Target {
  readonly url: string
  readonly secret: string | null
  readonly connections: number
  readonly removed: AbortController
}

export function createWebhook({ updates, clock, wait }: WebhookParts): Webhook {
  const tries: Delivered[] = []
  const busyChats = new Set<string>()
  let target: Target | null = null
  let lastError: { readonly at: number; readonly message: string } | null = null

  function wake(): void {
    const to = target
    if (to === null) return
    for (const { update } of updates.pending(clock.now())) {
      const chat = chatOf(update)
      if (busyChats.size >= to.connections) return
      // One chat's updates in order, different chats at once.
      if (busyChats.has(chat)) continue
      busyChats.add(chat)
      void deliver(to, update).finally(() => {
        busyChats.delete(chat)
        wake()
      })
    }
  }

  async function deliver(to: Target, update: Update): Promise<void> {
    for (let delayMs = firstRetryMs; !to.removed.signal.aborted; delayMs = Math.min(delayMs * 2, longestRetryMs)) {
      if (!updates.pending(clock.now()).some((kept) => kept.update === update)) return
      const { status, retryAfterMs } = await post(to, update, wait)
      tries.push({ update, status })
      if (status !== null && status >= 200 && status < 300) return updates.remove(update)
      lastError = { at: clock.now(), message: status === null ? 'Connection failed' : `Wrong response from the webhook: ${status}` }
      await wait(retryAfterMs ?? delayMs, to.removed.signal)
    }
  }

  return {
    tries,
    wake,
    get isSet() {
      return target !== null
    },
    set({ url, secret_token: secret, max_connections: connections = defaultConnections, allowed_updates: allowed, drop_pending_updates: drops }) {
      if (!/^https?:\/\/\S+$/.test(url)) throw new Refused(400, 'Bad Request: bad webhook: An HTTPS URL must be provided for webhook')
      if (secret !== undefined && !/^[A-Za-z0-9_-]{1,256}$/.test(secret)) {
        throw new Refused(400, 'Bad Request: secret token contains unallowed characters')
      }
      if (allowed !== undefined) updates.allow(allowed)
      if (drops === true) updates.clear()
      target?.removed.abort()
      target = { url, secret: secret ?? null, connections, removed: new AbortController() }
      wake()
    },
    remove() {
      target?.removed.abort()
      target = null
    },
    info: () => ({
      url: target?.url ?? '',
      has_custom_certificate: false,
      pending_update_count: updates.pending(clock.now()).length,
      ...(target === null ? {} : { max_connections: target.connections }),
      ...(lastError === null ? {} : { last_error_date: Math.floor(lastError.at / 1000), last_error_message: lastError.message }),
      ...(updates.allowed === null ? {} : { allowed_updates: updates.allowed }),
    }),
  }
}

async function post(to: Target, update: Update, wait: WebhookParts['wait']): Promise<{ status: number | null; retryAfterMs: number | null }> {
  const body = JSON.stringify(update)
  const secret = to.secret === null ? {} : { 'X-Telegram-Bot-Api-Secret-Token': to.secret }
  const headers = { 'Content-Type': 'application/json', 'Content-Length': Buffer.byteLength(body), ...secret }
  const over = new AbortController()
  return new Promise((resolve) => {
    const end = (status: number | null, retryAfterMs: number | null = null): void => {
      over.abort()
      resolve({ status, retryAfterMs })
    }
    const call = request(to.url, { method: 'POST', headers }, (response) => {
      response.resume()
      const retryAfter = Number(response.headers['retry-after'])
      response.on('end', () => end(response.statusCode ?? null, Number.isFinite(retryAfter) ? Math.min(retryAfter, 3600) * 1000 : null))
      response.on('error', () => end(null))
    })
    call.on('error', () => end(null))
    const giveUp = (): void => {
      call.destroy()
      end(null)
    }
    to.removed.signal.addEventListener('abort', giveUp, { once: true, signal: over.signal })
    void wait(answerWithinMs, over.signal).then(() => {
      if (!over.signal.aborted) giveUp()
    })
    call.end(body)
  })
}

function chatOf(update: Update): string {
  const message = update.message ?? update.edited_message ?? update.callback_query?.message ?? update.my_chat_member
  return message === undefined ? `update ${update.update_id}` : String(message.chat.id)
}
