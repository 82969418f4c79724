import type { Update } from 'grammy/types'
import nock from 'nock'
import { checkMessage as findRefusal } from './bot-api/message-rules.ts'
import { brokenLine, error, ok, type Answer, type Payload } from './telegram-answers.ts'
import { createUpdateQueue, type UpdateQueue } from './telegram-queue.ts'
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

/** A call that the server has carried out, when by its own clock, and what it answered. */
export interface TakenCall extends ApiCall {
  readonly at: number
  readonly result: unknown
}

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
  /** Of the calls, those that were not refused and came through. */
  readonly taken: readonly TakenCall[]
  /** Calls and polls that got no answer because the line was down. */
  readonly broken: number
  /** Updates that nobody asked for while they were kept. */
  readonly forgotten: readonly Update[]
  /** What the last poll became; a poll that was answered is followed by the next. */
  readonly lastPoll: 'none' | 'held' | 'answered' | 'broken'
  /** New updates arrive at the server. */
  push(...updates: Update[]): void
  /** The next calls of a method are answered so, in order. */
  plan(method: string, ...replies: ApiReply[]): void
  /** From now on calls of these methods need no plan. */
  serve(...methods: string[]): void
  setWebhook(url: string): void
  /** Down: nothing gets through either way, and the server goes on collecting what people send. */
  setLine(line: 'up' | 'down'): void
  /** Fails on calls that were not planned and on planned ones that did not come. */
  close(): void
}

const alwaysServed = ['getMe', 'getWebhookInfo', 'getUpdates', 'setWebhook']

export function createTelegramApi(time: Pick<VirtualWait, 'now' | 'wait'>): TelegramApi {
  if (!nock.isActive()) nock.activate()
  nock.disableNetConnect()
  const calls: ApiCall[] = []
  const polls: Payload[] = []
  const taken: TakenCall[] = []
  const planned = new Map<string, ApiReply[]>()
  const served = new Set(alwaysServed)
  const unplanned: string[] = []
  const unmatched: string[] = []
  const updates: UpdateQueue = createUpdateQueue(time)
  let isDown = false
  let broken = 0
  let lastPoll: TelegramApi['lastPoll'] = 'none'
  let webhookUrl = ''
  let nextMessageId = 1000

  const accepted: Readonly<Record<string, (payload: Payload) => Answer | Promise<Answer>>> = {
    getMe: () => ok({ ...botUser, can_join_groups: false, can_read_all_group_messages: false }),
    getWebhookInfo: () => ok({ url: webhookUrl, has_custom_certificate: false, pending_update_count: 0 }),
    setWebhook(payload) {
      webhookUrl = String(payload.url)
      return ok(true)
    },
    getUpdates: poll,
    sendMessage: (payload) => checkMessage(payload) ?? ok(messageOf(payload, (nextMessageId += 1))),
    editMessageText: (payload) => checkMessage(payload) ?? ok(messageOf(payload, Number(payload.message_id))),
    answerCallbackQuery: () => ok(true),
  }

  async function poll(payload: Payload): Promise<Answer> {
    const number = polls.length
    lastPoll = 'held'
    const answered = await updates.poll(payload)
    // Of a process that has stopped another poll may have taken the place.
    if (number === polls.length) lastPoll = 'answered'
    return answered
  }

  function breakOff(method: string): Promise<never> {
    broken += 1
    if (method === 'getUpdates') lastPoll = 'broken'
    return brokenLine()
  }

  async function answer(method: string, payload: Payload): Promise<Answer> {
    if (method === 'getUpdates') polls.push(payload)
    else calls.push({ method, payload })
    if (isDown) return breakOff(method)
    const reply = planned.get(method)?.shift() ?? (served.has(method) ? accept : null)
    if (reply === null) unplanned.push(method)
    const refused = await replyWith(reply ?? refuse(500, 'Internal Server Error: not planned'))
    const answered = refused ?? (await accepted[method]!(payload))
    if (method !== 'getUpdates' && isAccepted(answered)) taken.push({ method, payload, at: time.now(), result: answered[1].result })
    return answered
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
    taken,
    get broken() {
      return broken
    },
    get forgotten() {
      return updates.forgotten
    },
    get lastPoll() {
      return lastPoll
    },
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
    setLine(line) {
      isDown = line === 'down'
      if (!isDown || !updates.breakOff()) return
      broken += 1
      lastPoll = 'broken'
    },
    close() {
      nock.emitter.off('no match', noteUnmatched)
      nock.abortPendingRequests()
      nock.cleanAll()
      nock.enableNetConnect()
      nock.restore()
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
  drop: () => brokenLine(),
  silence: () => new Promise<never>(() => {}),
  page: async ({ status }) => [status, '<html>Bad gateway</html>'],
}

function replyWith<K extends ApiReply['kind']>(reply: Extract<ApiReply, { kind: K }>): Promise<Answer | null> {
  return replyMakers[reply.kind as K](reply)
}

function isAccepted(answer: Answer): answer is readonly [200, { result: unknown }] {
  return answer[0] === 200 && typeof answer[1] !== 'string'
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
