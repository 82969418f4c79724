import type { DocumentId, EffectId, Instant } from './identifier.ts'

/** Where a person is reached: a network by name and their address on it. */
export interface Contact {
  readonly channel: string
  readonly address: string
}

/** A button; `data` is 1–64 bytes of UTF-8 (the Bot API's limit, kept for every network). */
export interface Button {
  readonly label: string
  readonly data: string
}

/** What is shown to a person: plain text, no markup, and rows of buttons. */
export interface Message {
  readonly text: string
  readonly buttons: readonly (readonly Button[])[]
}

/** Alerts go before replies, replies before reminders. */
export const urgencies = ['alert', 'reply', 'reminder'] as const
export type Urgency = (typeof urgencies)[number]

/** Something owed to the outside, committed with the document that owes it and sent afterwards. */
export type Effect =
  | {
      readonly kind: 'send'
      readonly id: EffectId
      readonly to: Contact
      readonly message: Message
      readonly urgency: Urgency
      /** Worth nothing afterwards; left out, it goes out however late. */
      readonly until?: Instant
      /** Stands for itself: what is more urgent of the same document need not wait behind it. */
      readonly isApart?: true
    }
  /** The buttons of an earlier message are removed and its text replaced. */
  | {
      readonly kind: 'amend'
      readonly id: EffectId
      readonly to: Contact
      /** The `send` that showed the message. */
      readonly of: EffectId
      readonly text: string
    }
  /** What concerns another document, delivered there as an event with this effect's id. */
  | { readonly kind: 'tell'; readonly id: EffectId; readonly to: DocumentId; readonly told: unknown }
