import type { Content, Language, Words } from '#src/content/content.ts'
import type { Flows } from '#src/conversation/flow.ts'
import type { Entry } from '#src/domain/entry.ts'
import { brandAs, type DocumentId, type EffectId, type EntryId, type EventId, type Instant } from '#src/domain/identifier.ts'
import type { Contact, Effect, Message, Urgency } from '#src/domain/message.ts'
import type { StoredDocument } from '#src/ports/store.ts'
import { latestOf } from '#src/schedule/is-stale.ts'
import type { ConversationState } from './conversation-state.ts'
import { noInvitation, type Actor, type Event, type FreshInvitation, type Told } from './event.ts'
import { languageOf } from './language-of.ts'

/** What every step is handed besides the document and the event. */
export interface Surroundings {
  readonly content: Content
  readonly flows: Flows
}

/**
 * One step under way: the document as it becomes, and what it records and owes. It lives for one event and is the only
 * thing in this room that changes.
 */
export class Draft<D extends StoredDocument> {
  document: D
  readonly eventId: EventId
  readonly at: Instant
  readonly content: Content
  readonly flows: Flows
  /** For whoever has an invitation to give out; an event that brings none can give none. */
  readonly invitation: FreshInvitation
  /** The therapist whose act this event is. */
  private readonly actor: Actor | null
  readonly entries: Entry[] = []
  readonly effects: Effect[] = []
  /** Lines that go before the next question, in the same message. */
  readonly notes: string[] = []
  closesVolume = false
  /** What is said goes out before everything else. */
  isUrgent = false
  /** What is said is of use only near its time, and may go out after everything else. */
  isReminder = false

  constructor(document: D, event: Event, at: Instant, surroundings: Surroundings) {
    this.document = document
    this.eventId = event.id
    this.invitation = 'invitation' in event ? event.invitation : noInvitation
    this.actor = actorOf(event)
    this.at = at
    this.content = surroundings.content
    this.flows = surroundings.flows
  }

  change(patch: Partial<D>): void {
    this.document = { ...this.document, ...patch }
  }

  /** The part of a document that any speaking document has. */
  converse(patch: Partial<ConversationState>): void {
    this.document = { ...this.document, ...patch }
  }

  language(name: string): Language {
    return languageOf(this.content, name)
  }

  words(language: string): Words {
    return this.language(language).words
  }

  record(kind: string, by: string, data: Readonly<Record<string, unknown>>): void {
    const id = brandAs<EntryId>(`${this.eventId}/${this.entries.length + 1}`)
    // A name is what somebody typed, and two may type the same; whose desk it was, nobody can choose.
    const isActors = this.actor !== null && by === this.actor.name
    this.entries.push({ id, at: this.at, kind, by, data: isActors ? { ...data, desk: this.actor.desk } : data })
  }

  say(text: string): void {
    this.notes.push(text)
  }

  send(to: Contact, message: Message, urgency: Urgency, isApart = false): EffectId {
    const id = this.nextEffectId()
    const until = urgency === 'reminder' ? { until: latestOf(this.at) } : {}
    this.effects.push({ kind: 'send', id, to, message, urgency, ...until, ...(isApart ? { isApart } : {}) })
    return id
  }

  amend(to: Contact, of: EffectId, text: string): void {
    this.effects.push({ kind: 'amend', id: this.nextEffectId(), to, of, text })
  }

  tell(to: DocumentId, told: Told): void {
    this.effects.push({ kind: 'tell', id: this.nextEffectId(), to, told })
  }

  private nextEffectId(): EffectId {
    return brandAs<EffectId>(`${this.eventId}#${this.effects.length + 1}`)
  }
}

function actorOf(event: Event): Actor | null {
  if (event.kind === 'act') return event.by
  return event.kind === 'told' && 'by' in event.told ? event.told.by : null
}
