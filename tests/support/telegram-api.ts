import type { Update } from 'grammy/types'
import nock from 'nock'
import { checkMessage as findRefusal } from './bot-api/message-rules.ts'
import { botUser } from './telegram-updates.ts'
import type { VirtualWait } from './virtual-wait.ts'

export const apiRoot = 'https://bot-api.test'
export const token = '4242:secret-of-the-bot'

export interface ApiCall {
  readonly method: string
  readonly payload: unknown
}

/** How the server answers one call. `accept` keeps its rules: too long a text is refused all the same. */
export type ApiReply =
  | { readonly kind: 'accept' }
  | {
      readonly kind: 'refuse'
      readonly code: number
      readonly description: string
      readonly parameters?: Readonly<Record<string, number>>
    }
  /** Whatever the server's own state says. */
  | { readonly kind: 'result'; readonly result: unknown }
  /** The line breaks. */
  | { readonly kind: 'drop' }
  /** The line stays open and nothing comes. */
  | { readonly kind: 'silence' }
  /** A proxy answers with a page. */
  | { readonly kind: 'page'; readonly status: number }

export const accept: ApiReply = { kind: 'accept' }

export function refuse(code: number, description: string, parameters: Record<string, number> = {}): ApiReply {
  return { kind: 'refuse', code, description, parameters }
}

/** The messaging server as far as this channel uses it, on the other end of the HTTP client. */
export interface TelegramApi {
  /** Everything but the polls, in order. */
  readonly calls: readonly ApiCall[]
  readonly polls: readonly unknown[]
  readonly queue: readonly Update[]
  /** New updates arrive at the server. */
  push(...updates: Update[]): void
  /** The next calls of a method are answered so, in order. */
  plan(method: string, ...replies: ApiReply[]): void
  /** From now on calls of these methods need no plan. */
  serve(...methods: string[]): void
  setWebhook(url: string): void
  /** Fails on calls that were not planned and on planned ones that did not come. */
  close(): void
}

type Payload = Readonly<Record<string, unknown>>
type Answer = readonly [status: number, body: Record<string, unknown> | string]

const alwaysServed = ['getMe', 'getWebhookInfo', 'getUpdates', 'setWebhook']

export function createTelegramApi(time: VirtualWait): TelegramApi {
  nock.disableNetConnect()
  const calls: ApiCall[] = []
  const polls: Payload[] = []
  const planned = new Map<string, ApiReply[]>()
  const served = new Set(alwaysServed)
  const unplanned: string[] = []
  const unmatched: string[] = []
  const updates = createUpdateQueue(time)
  let webhookUrl = ''
  let nextMessageId = 1000

  const accepted: Readonly<Record<string, (payload: Payload) => Answer | Promise<Answer>>> = {
    getMe: () => ok({ ...botUser, can_join_groups: false, can_read_all_group_messages: false }),
    getWebhookInfo: () => ok({ url: webhookUrl, has_custom_certificate: false, pending_update_count: 0 }),
    setWebhook(payload) {
      webhookUrl = String(payload.url)
      return ok(true)
    },
    getUpdates: (payload) => updates.poll(payload),
    sendMessage: (payload) => checkMessage(payload) ?? ok(messageOf(payload, (nextMessageId += 1))),
    editMessageText: (payload) => checkMessage(payload) ?? ok(messageOf(payload, Number(payload.message_id))),
    answerCallbackQuery: () => ok(true),
  }

  async function answer(method: string, payload: Payload): Promise<Answer> {
    if (method === 'getUpdates') polls.push(payload)
    else calls.push({ method, payload })
    const reply = planned.get(method)?.shift() ?? (served.has(method) ? accept : null)
    if (reply === null) unplanned.push(method)
    const refused = await replyWith(reply ?? refuse(500, 'Internal Server Error: not planned'))
    return refused ?? (await accepted[method]!(payload))
  }

  nock(apiRoot)
    .persist()
    .post(/^\/bot/)
    .reply(async (uri, body) => {
      const [, prefix = '', method = ''] = uri.split('/')
      if (prefix !== `bot${token}` || accepted[method] === undefined) return error(404, 'Not Found')
      return await answer(method, body as Payload)
    })
  const noteUnmatched = (): void => void unmatched.push('a request to another server')
  nock.emitter.on('no match', noteUnmatched)

  return {
    calls,
    polls,
    get queue() {
      return updates.pending
    },
    push: (...news) => updates.push(news),
    plan(method, ...replies) {
      planned.set(method, [...(planned.get(method) ?? []), ...replies])
    },
    serve(...methods) {
      for (const method of methods) served.add(method)
    },
    setWebhook(url) {
      webhookUrl = url
    },
    close() {
      nock.emitter.off('no match', noteUnmatched)
      nock.abortPendingRequests()
      nock.cleanAll()
      const unused = [...planned].flatMap(([method, replies]) => replies.map((reply) => `${method}: ${reply.kind}`))
      const faults = [...unplanned.map((method) => `not planned: ${method}`), ...unmatched, ...unused]
      if (faults.length > 0) throw new Error(`The API was not used as planned: ${faults.join('; ')}`)
    },
  }
}

const replyMakers: { [K in ApiReply['kind']]: (reply: Extract<ApiReply, { kind: K }>) => Promise<Answer | null> } = {
  accept: async () => null,
  refuse: async ({ code, description, parameters }) => error(code, description, parameters),
  result: async ({ result }) => ok(result),
  drop: () => Promise.reject(Object.assign(new Error('socket hang up'), { code: 'ECONNRESET' })),
  silence: () => new Promise<never>(() => {}),
  page: async ({ status }) => [status, '<html>Bad gateway</html>'],
}

function replyWith<K extends ApiReply['kind']>(reply: Extract<ApiReply, { kind: K }>): Promise<Answer | null> {
  return replyMakers[reply.kind as K](reply)
}

function ok(result: unknown): Answer {
  return [200, { ok: true, result }]
}

function error(code: number, description: string, parameters: Readonly<Record<string, number>> = {}): Answer {
  return [code, { ok: false, error_code: code, description, parameters }]
}

function messageOf(payload: Payload, messageId: number): Record<string, unknown> {
  const chat = { id: payload.chat_id, type: 'private', first_name: 'Ana' }
  return { message_id: messageId, date: 1_750_000_000, chat, from: botUser, text: payload.text }
}

/** Null is within the limits. */
function checkMessage(payload: Payload): Answer | null {
  const refused = findRefusal(payload)
  return refused === null ? null : error(refused.code, refused.description)
}

/** The update queue with true offsets: https://core.telegram.org/bots/api#getupdates. */
function createUpdateQueue(time: VirtualWait) {
  let pending: Update[] = []
  let allowed: readonly string[] = []
  let held: ((answer: Answer) => void) | null = null

  function isAllowed(update: Update): boolean {
    return Object.keys(update).some((key) => allowed.includes(key))
  }

  function release(answer: Answer): void {
    held?.(answer)
    held = null
  }

  function forget(offset: number): void {
    const lastId = pending.at(-1)?.update_id ?? offset
    // An offset far in the future is none: the server answers from the head (tdlib `TQueue::get`, from memory).
    if (offset > lastId + 10) return
    pending = pending.filter(({ update_id: id }) => id >= offset)
  }

  return {
    get pending(): readonly Update[] {
      return pending
    },
    push(news: readonly Update[]): void {
      pending = [...pending, ...news]
      const seen = pending.filter(isAllowed)
      if (held !== null && seen.length > 0) release(ok(seen.slice(0, 100)))
    },
    poll(payload: Payload): Answer | Promise<Answer> {
      release(error(409, 'Conflict: terminated by other getUpdates request'))
      allowed = (payload.allowed_updates as string[] | undefined) ?? allowed
      if (typeof payload.offset === 'number') forget(payload.offset)
      pending = pending.filter(isAllowed)
      const batch = pending.slice(0, Number(payload.limit ?? 100))
      if (batch.length > 0 || payload.timeout === 0) return ok(batch)
      return new Promise((resolve) => {
        held = resolve
        void time.wait(Number(payload.timeout) * 1000).then(() => {
          if (held === resolve) release(ok([]))
        })
      })
    },
  }
}
