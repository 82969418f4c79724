import type { Handler, ReplyOnly, SendEffect, StepResult, UndeliverableReason, UnsentReason } from '#src/delivery/handler.ts'
import { brandAs, type DocumentId, type EffectId, type EventId, type Instant } from '#src/domain/identifier.ts'
import type { Contact, Effect, Urgency } from '#src/domain/message.ts'
import type { Inbound } from '#src/ports/channel.ts'
import type { Head, StoredDocument } from '#src/ports/store.ts'
import { formatAfter, noMigrations } from '#src/stores/migrations.ts'

export type DiaryEvent =
  | { readonly kind: 'said'; readonly id: EventId; readonly from: Contact; readonly text: string }
  | { readonly kind: 'told'; readonly id: EventId; readonly from: DocumentId; readonly told: string }
  | { readonly kind: 'woken'; readonly id: EventId }
  | {
      readonly kind: 'undeliverable'
      readonly id: EventId
      readonly effect: EffectId
      readonly reason: UndeliverableReason
    }
  | { readonly kind: 'unreminded'; readonly id: EventId; readonly effect: EffectId; readonly reason: UnsentReason }
  | { readonly kind: 'delayed'; readonly id: EventId; readonly effect: EffectId }

/** A document that writes down what came; small enough to see at a glance what delivery did to it. */
export interface Diary extends StoredDocument {
  readonly lines: readonly string[]
  readonly contacts: readonly Contact[]
  readonly timers: readonly Instant[]
}

export interface Answer {
  readonly effects?: readonly Effect[]
  readonly timers?: readonly Instant[]
  readonly contacts?: readonly Contact[]
  /** A mistake: the store knows one format only. */
  readonly format?: number
}

/** What a test's document does with an event, besides writing it down. */
export type Respond = (event: DiaryEvent, diary: Diary, at: Instant) => Answer | ReplyOnly | null

const lineOf: { [Kind in DiaryEvent['kind']]: (event: Extract<DiaryEvent, { kind: Kind }>) => string } = {
  said: ({ text }) => text,
  told: ({ from, told }) => `${from} told ${told}`,
  woken: () => 'woken',
  undeliverable: ({ effect, reason }) => `${effect} ${reason}`,
  unreminded: ({ effect, reason }) => `${effect} unreminded, ${reason}`,
  delayed: ({ effect }) => `${effect} delayed`,
}

export const documentId = (name: string): DocumentId => brandAs<DocumentId>(name)
export const contact = (address: string, channel = 'net'): Contact => ({ channel, address })

export function inbound(id: string, address: string, text: string): Inbound {
  return { kind: 'message', id: brandAs<EventId>(id), from: contact(address), text }
}

export function send(
  event: DiaryEvent,
  to: string,
  text: string,
  urgency: Urgency = 'reply',
  channel = 'net',
): SendEffect {
  const id = brandAs<EffectId>(`${event.id}/${text}`)
  return { kind: 'send', id, to: contact(to, channel), message: { text, buttons: [] }, urgency }
}

export function tell(event: DiaryEvent, to: string, told: string): Effect {
  return { kind: 'tell', id: brandAs<EffectId>(`${event.id}/tell/${told}`), to: documentId(to), told }
}

/** Answers every message with its own words. */
export const echo: Respond = (event) =>
  event.kind === 'said' ? { effects: [send(event, event.from.address, `re ${event.text}`)] } : {}

/** Whoever is known goes to their document, others to one named after their address. */
export function createDiaryHandler(respond: Respond): Handler<DiaryEvent> {
  return {
    route(message, head, _secret) {
      if (message.kind !== 'message') throw new TypeError('this handler reads messages only')
      const { from, id, text } = message
      const document = head?.id ?? documentId(`chart-${from.address}`)
      return { document, event: { kind: 'said', id, from, text } }
    },
    receiveTell: (from, { id, told }) => ({ kind: 'told', id: brandAs<EventId>(id), from, told: String(told) }),
    wake: (id) => ({ kind: 'woken', id }),
    undeliverable: (effect, reason, id) => ({ kind: 'undeliverable', id, effect: effect.id, reason }),
    unreminded: (effect, reason, id) => ({ kind: 'unreminded', id, effect: effect.id, reason }),
    delayed: (effect, id) => ({ kind: 'delayed', id, effect: effect.id }),
    step(stored, event, at, id) {
      const diary = (stored as Diary | null) ?? emptyDiary(id, event)
      const answer = respond(event, diary, at)
      return answer === null || 'kind' in answer ? answer : commitDiary(diary, event, answer, at)
    },
  }
}

function emptyDiary(id: DocumentId, event: DiaryEvent): Diary {
  const contacts = event.kind === 'said' ? [event.from] : []
  return { kind: 'chart', id, format: formatAfter(noMigrations), lines: [], contacts, timers: [] }
}

function commitDiary(diary: Diary, event: DiaryEvent, answer: Answer, at: Instant): StepResult {
  const lines = [...diary.lines, (lineOf[event.kind] as (event: DiaryEvent) => string)(event)]
  const { contacts = diary.contacts, timers = diary.timers, format = diary.format, effects = [] } = answer
  const document: Diary = { ...diary, lines, contacts, timers, format }
  return { document, head: headOf(document), entries: [], effects: effects.map((effect) => lapsing(effect, at)), closesVolume: false }
}

/** As the product's: a reminder is worth nothing after two hours. */
function lapsing(effect: Effect, at: Instant): Effect {
  return effect.kind === 'send' && effect.urgency === 'reminder' ? { ...effect, until: at + 2 * 3_600_000 } : effect
}

export function headOf({ id, kind, contacts, timers }: Diary): Head {
  const nextDueAt = timers.length === 0 ? null : Math.min(...timers)
  const nothingElse = { openAlerts: 0, isLocked: false, approvalsWaiting: 0, lastSessionAt: null }
  return { id, kind, name: id, contacts, nextDueAt, ...nothingElse }
}
