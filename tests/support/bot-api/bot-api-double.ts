// A Bot API server of our own for whole processes: it answers over HTTP as https://core.telegram.org/bots/api describes, as
// far as this product calls it, and is stricter where strictness finds our mistakes. It speaks HTTP on loopback, as a
// self-hosted Bot API server does (https://core.telegram.org/bots/api#using-a-local-bot-api-server).
import { createServer, type IncomingMessage, type ServerResponse } from 'node:http'
import type { AddressInfo } from 'node:net'
import type { Update } from 'grammy/types'
import type { Clock } from '#src/ports/clock.ts'
import { botUser } from '../telegram-updates.ts'
import { ok, Refused, toAnswer, type Answer } from './answer.ts'
import { createChatBook, type ChatBook, type ShownMessage } from './chat-book.ts'
import { createFloodGate, type FloodLimits } from './flood-limits.ts'
import { applyFault, createFaultPlan, type Ending, type FaultPlan } from './line-faults.ts'
import { checkMessage, mostAnswerUnits } from './message-rules.ts'
import { isMethod, readParameters, type MethodName, type ParametersOf } from './parameters.ts'
import { createPeople, type People } from './people.ts'
import { createPollDesk } from './poll-desk.ts'
import { readCall } from './read-call.ts'
import { createUpdateStore, pressLivesMs } from './update-store.ts'
import { createWebhook, type Delivered } from './webhook.ts'

export interface Call {
  readonly method: string
  readonly payload: Readonly<Record<string, unknown>>
}

/** `done`: its effect has happened, and nobody has been told yet. */
export interface CallMoment extends Call {
  readonly phase: 'arrived' | 'done' | 'answered'
  readonly status: number | null
  /** What a poll brought. */
  readonly updates: number
}

export interface DoubleOptions {
  readonly token: string
  readonly clock: Clock
  /** How long polls, retries and slow answers wait. */
  readonly wait: (ms: number, signal?: AbortSignal) => Promise<void>
  readonly limits?: FloodLimits | null
  /** Called in the middle of a call, so that a test can end the caller at that very instant. */
  readonly observe?: (moment: CallMoment) => void
}

export interface BotApiDouble extends People, Pick<FaultPlan, 'plan' | 'setLine'> {
  /** What goes into TELEGRAM_API_ROOT. */
  readonly root: string
  /** Everything but the polls, in order of arrival; those that were refused too. */
  readonly calls: readonly Call[]
  readonly polls: readonly Readonly<Record<string, unknown>>[]
  readonly deliveries: readonly Delivered[]
  /** Updates that nobody has confirmed or taken yet. */
  pending(): readonly Update[]
  /** Updates that grew too old on the server. */
  readonly dropped: readonly Update[]
  readonly isPolled: boolean
  /** What stands in a chat now, oldest first. */
  messages(chat: number): readonly ShownMessage[]
  all(): readonly ShownMessage[]
  /** As of another process with the same token. */
  setWebhook(url: string, secret?: string): void
  close(): Promise<void>
}

type Methods = { readonly [Name in MethodName]: (given: ParametersOf<Name>, gone: AbortSignal) => Answer | Promise<Answer> }

export async function openBotApiDouble(options: DoubleOptions): Promise<BotApiDouble> {
  const { token, clock, wait, limits = null, observe = () => undefined } = options
  const updates = createUpdateStore()
  const chats = createChatBook()
  const faults = createFaultPlan()
  const flood = createFloodGate(limits)
  const polls: Readonly<Record<string, unknown>>[] = []
  const calls: Call[] = []
  const desk = createPollDesk({ updates, clock, wait })
  const webhook = createWebhook({ updates, clock, wait })
  const people = createPeople({ chats, clock, push })
  const methods = createMethods({ chats, clock, flood, desk, webhook, updates, pressedAt: people.pressedAt })

  function push(update: Update): void {
    if (!updates.add(update, clock.now())) return
    desk.wake()
    webhook.wake()
  }

  /** What the server makes of a call, without what the line makes of it. */
  async function act(method: MethodName, payload: unknown, gone: AbortSignal): Promise<Answer> {
    try {
      const given = readParameters(method, payload)
      return await (methods[method] as (given: unknown, gone: AbortSignal) => Answer | Promise<Answer>)(given, gone)
    } catch (error) {
      if (error instanceof Refused) return toAnswer(error.refusal)
      throw error
    }
  }

  async function take(request: IncomingMessage, response: ServerResponse): Promise<void> {
    const gone = new AbortController()
    response.on('close', () => gone.abort())
    const { token: given, method, payload } = await readCall(request)
    // https://core.telegram.org/bots/api#authorizing-your-bot; that a malformed token gets 404 and a wrong one 401 is from memory.
    if (!/^\d+:[\w-]+$/.test(given) || !isMethod(method)) return respond(response, toAnswer({ code: 404, description: 'Not Found' }))
    if (given !== token) return respond(response, toAnswer({ code: 401, description: 'Unauthorized' }))
    if (payload === null) return respond(response, toAnswer({ code: 400, description: "Bad Request: can't parse the request" }))
    if (method === 'getUpdates') polls.push(payload)
    else calls.push({ method, payload })
    const note = (phase: CallMoment['phase'], ending: Ending | null): void => observe(momentOf({ method, payload }, phase, ending))
    note('arrived', null)
    const ending = await applyFault(faults.next(method), () => act(method, payload, gone.signal), wait)
    note('done', ending)
    if (ending === 'silence') return
    if (ending === 'cut') return void response.destroy()
    respond(response, ending, () => note('answered', ending))
  }

  const server = createServer((request, response) => {
    void take(request, response).catch((error: unknown) => {
      response.destroy()
      process.emitWarning(`the Bot API double failed: ${error instanceof Error ? error.message : 'unknown'}`)
    })
  })
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve))
  const { port } = server.address() as AddressInfo

  return {
    ...people,
    root: `http://127.0.0.1:${port}`,
    calls,
    polls,
    deliveries: webhook.tries,
    dropped: updates.dropped,
    plan: faults.plan,
    setLine: faults.setLine,
    pending: () => updates.pending(clock.now()).map(({ update }) => update),
    get isPolled() {
      return desk.isHeld
    },
    messages: chats.messages,
    all: chats.all,
    setWebhook(url, secret) {
      desk.end(webhookEndsPolls)
      webhook.set({ url, ...(secret === undefined ? {} : { secret_token: secret }) })
    },
    async close() {
      webhook.remove()
      server.closeAllConnections()
      await new Promise<void>((resolve) => server.close(() => resolve()))
    },
  }
}

const webhookEndsPolls = 'Conflict: terminated by setWebhook request'

interface MethodParts {
  readonly chats: ChatBook
  readonly clock: Clock
  readonly flood: ReturnType<typeof createFloodGate>
  readonly desk: ReturnType<typeof createPollDesk>
  readonly webhook: ReturnType<typeof createWebhook>
  readonly updates: ReturnType<typeof createUpdateStore>
  readonly pressedAt: (id: string) => number | null
}

function createMethods({ chats, clock, flood, desk, webhook, updates, pressedAt }: MethodParts): Methods {
  return {
    getMe: () => ok({ ...botUser, can_join_groups: false, can_read_all_group_messages: false, supports_inline_queries: false }),
    getWebhookInfo: () => ok(webhook.info()),
    getUpdates: (given, gone) => {
      if (webhook.isSet) throw new Refused(409, "Conflict: can't use getUpdates method while webhook is active; use deleteWebhook to delete the webhook first")
      return desk.poll(given, gone)
    },
    setWebhook: (given) => {
      if (given.url === '') webhook.remove()
      else {
        webhook.set(given)
        desk.end(webhookEndsPolls)
      }
      return ok(true)
    },
    deleteWebhook: ({ drop_pending_updates: drops }) => {
      webhook.remove()
      if (drops === true) updates.clear()
      return ok(true)
    },
    sendMessage: (given) => {
      const chat = chatIdOf(given.chat_id)
      check(given)
      chats.require(chat)
      flood.pass(chat, clock.now())
      return ok(messageOf(chats.send(chat, given.text, given.reply_markup, clock.now())))
    },
    editMessageText: (given) => {
      const chat = chatIdOf(given.chat_id)
      check(given)
      return ok(messageOf(chats.edit(chat, given.message_id, given.text, given.reply_markup)))
    },
    answerCallbackQuery: ({ callback_query_id: id, text = '' }) => {
      if (text.length > mostAnswerUnits) throw new Refused(400, 'Bad Request: MESSAGE_TOO_LONG')
      const at = pressedAt(id)
      if (at === null || clock.now() - at > pressLivesMs) {
        throw new Refused(400, 'Bad Request: query is too old and response timeout expired or query ID is invalid')
      }
      return ok(true)
    },
  }
}

function check(given: Readonly<Record<string, unknown>>): void {
  const refused = checkMessage(given)
  if (refused !== null) throw new Refused(refused.code, refused.description)
}

/** A public name leads to no chat that anybody here has. */
function chatIdOf(id: number | string): number {
  if (typeof id === 'string') throw new Refused(400, 'Bad Request: chat not found')
  return id
}

function messageOf({ id, chat, at, text }: ShownMessage): Readonly<Record<string, unknown>> {
  return { message_id: id, date: Math.floor(at / 1000), chat: { id: chat, type: 'private', first_name: 'Ana' }, from: botUser, text }
}

function momentOf({ method, payload }: Call, phase: CallMoment['phase'], ending: Ending | null): CallMoment {
  const answer = ending === null || typeof ending === 'string' ? null : ending
  const result = answer !== null && typeof answer.body !== 'string' ? answer.body['result'] : undefined
  return { method, payload, phase, status: answer?.status ?? null, updates: method === 'getUpdates' && Array.isArray(result) ? result.length : 0 }
}

function respond(response: ServerResponse, { status, body }: Answer, sent: () => void = () => undefined): void {
  if (response.destroyed) return
  const [text, type] = typeof body === 'string' ? [body, 'text/html'] : [JSON.stringify(body), 'application/json']
  response.writeHead(status, { 'Content-Type': type })
  response.end(text, sent)
}
