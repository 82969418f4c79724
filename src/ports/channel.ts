import type { EventId } from '#src/domain/identifier.ts'
import type { Contact, Message, Urgency } from '#src/domain/message.ts'

/** What came in from a network, in nobody's types but ours. `id` is the network's own, so that a repeat is known. */
export type Inbound =
  | {
      readonly kind: 'message'
      readonly id: EventId
      readonly from: Contact
      readonly text: string
      /** A new wording of an earlier message: read for red flags and `stop`, never as an answer to what is asked now. */
      readonly isEdit?: true
    }
  /** Sent by a person but not as text: a picture, a voice note. */
  | { readonly kind: 'unreadable'; readonly id: EventId; readonly from: Contact }
  | { readonly kind: 'press'; readonly id: EventId; readonly from: Contact; readonly data: string }
  /** The person opened an invitation link. */
  | { readonly kind: 'join'; readonly id: EventId; readonly from: Contact; readonly token: string }
  /** The person blocked or unblocked us. */
  | { readonly kind: 'reach'; readonly id: EventId; readonly from: Contact; readonly isReachable: boolean }
  /** Several people may read here: nothing about health is said or taken. */
  | { readonly kind: 'group'; readonly id: EventId; readonly from: Contact }
  /** The same chat under a new address. */
  | { readonly kind: 'moved'; readonly id: EventId; readonly from: Contact; readonly to: Contact }

/** Resolves once the inbound is committed or parked; only then may a network be told that it arrived. */
export type Receive = (inbound: Inbound) => Promise<void>

export type SendResult =
  | { readonly kind: 'sent'; readonly ref: string | null }
  /** Not now; try the same again after `afterMs`, other people meanwhile not delayed. */
  | { readonly kind: 'later'; readonly afterMs: number }
  /** The person cannot be reached on this network until they come back. */
  | { readonly kind: 'unreachable' }
  /** This message will never be taken; `code` is the network's. */
  | { readonly kind: 'refused'; readonly code: string }

/** What a network publishes that it takes of one sender, edits counted like messages. */
export interface SendingLimits {
  /** To all people together: never more than `atMost` in any stretch of `withinMs`. */
  readonly overall: { readonly atMost: number; readonly withinMs: number }
  /** To one person: one each `everyMs` in the long run, and after a pause up to `burst` at once. */
  readonly perContact: { readonly everyMs: number; readonly burst: number }
}

export interface Channel {
  readonly name: string
  /** Kept before the network has to refuse; a network without any takes whatever comes. */
  readonly limits?: SendingLimits
  /** Begins to receive. `failed` is called once if the channel cannot go on (e.g. its token was refused). */
  start(receive: Receive, failed: (error: ChannelError) => void): Promise<void>
  stop(): Promise<void>
  send(to: Contact, message: Message, urgency: Urgency): Promise<SendResult>
  /** Replaces the text and removes the buttons of a sent message. */
  amend(to: Contact, ref: string, text: string): Promise<SendResult>
  /** The link by which a person opens an invitation on this network. */
  invitationLink(token: string): Promise<string>
}

/** A channel cannot start or go on; the message is one line with the mend, without tokens or texts. */
export class ChannelError extends Error {
  readonly code: string
  constructor(code: string, message: string, options?: ErrorOptions) {
    super(message, options)
    this.name = 'ChannelError'
    this.code = code
  }
}
