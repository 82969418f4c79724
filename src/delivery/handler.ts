import type { DocumentId, EventId, Instant } from '#src/domain/identifier.ts'
import type { Effect } from '#src/domain/message.ts'
import type { Inbound } from '#src/ports/channel.ts'
import type { Commit, Head, StoredDocument } from '#src/ports/store.ts'

export interface Identified {
  readonly id: EventId
}

export type SendEffect = Extract<Effect, { kind: 'send' }>
export type TellEffect = Extract<Effect, { kind: 'tell' }>

/** An answer to somebody of whom nothing is stored: sent, and nothing remembered beyond this process. */
export interface ReplyOnly {
  readonly kind: 'reply-only'
  readonly effects: readonly SendEffect[]
}

/** Null: nothing to commit. */
export type StepResult = Commit | ReplyOnly | null

export type UndeliverableReason = 'unreachable' | 'refused'

/** `late`: it could not go out while it was of use. `unsure`: it may have gone out twice, or never. */
export type UnsentReason = 'late' | 'unsure'

/** What the delivery needs of the conversation's side; it knows nothing of what events mean. */
export interface Handler<E extends Identified = Identified> {
  /**
   * Where an inbound goes and what event it is there. `head` is the desk or chart that the contact belongs to, or null.
   * `newSecret` draws a random string for whoever needs one (invitations). `unsent` is how many messages to the contact
   * have not gone out yet. The event keeps the inbound's id.
   */
  route(inbound: Inbound, head: Head | null, newSecret: () => string, unsent: number): { readonly document: DocumentId; readonly event: E }
  /** A tell of another document becomes an event with the effect's id. */
  receiveTell(from: DocumentId, effect: TellEffect): E
  /** A due timer woke the document. */
  wake(id: EventId): E
  /** What became of a send that can never arrive. */
  undeliverable(effect: SendEffect, reason: UndeliverableReason, id: EventId): E
  /** A reminder is not sent, or not once more. */
  unreminded(effect: SendEffect, reason: UnsentReason, id: EventId): E
  /** An alert has not gone out for a minute. It goes on being tried; told once for each. */
  delayed(effect: SendEffect, id: EventId): E
  /** `document` is null for one that does not exist yet; `id` is its id either way. */
  step(document: StoredDocument | null, event: E, at: Instant, id: DocumentId): StepResult
}
