import type { AlertId, DocumentId, EffectId } from '#src/domain/identifier.ts'
import type { Contact } from '#src/domain/message.ts'
import { noConversation, type ConversationState } from './conversation-state.ts'
import type { Away, Cover, DeskCard } from './desk-card.ts'
import type { Shown } from './event.ts'
import type { OpenMatters } from './open-matters.ts'
import type { Timer } from './timer.ts'
import { documentFormat, type DocumentFormat } from './document-format.ts'

/** An alert that was sent to this desk's therapist, so that it is known which one did not arrive. */
export interface SentAlert {
  readonly effect: EffectId
  readonly alert: { readonly chart: DocumentId; readonly id: AlertId } | null
  /** It came from a colleague whom it did not reach. */
  readonly isPassedOn: boolean
}

/** The desk's one kind of timer: a duty of the therapist begins. */
export type DeskTimer = Timer<'duty-begins'>

/** One therapist's conversation. */
export interface Desk extends ConversationState {
  readonly kind: 'desk'
  readonly id: DocumentId
  readonly format: DocumentFormat
  readonly name: string
  readonly zone: string
  readonly language: string
  readonly cover: Cover
  readonly away: Away | null
  readonly contact: Contact | null
  readonly isReachable: boolean
  readonly colleagues: readonly DeskCard[]
  readonly clients: readonly { readonly chart: DocumentId; readonly name: string }[]
  /** What is open of each client of whom anything is. */
  readonly openMatters: readonly { readonly chart: DocumentId; readonly matters: OpenMatters }[]
  /** Routine alerts that wait for the next duty. */
  readonly held: readonly Shown[]
  /** The newest last, at most fifty. */
  readonly sentAlerts: readonly SentAlert[]
  readonly timers: readonly DeskTimer[]
  /** Who took over when this desk was closed; left out while it is open. */
  readonly closedTo?: DeskCard
}

/** Weekday office hours, until the therapist says otherwise. */
const usualCover: Cover = { days: ['mon', 'tue', 'wed', 'thu', 'fri'], from: '08:00', to: '18:00' }

export function newDesk(id: DocumentId, language: string): Desk {
  return {
    kind: 'desk',
    id,
    format: documentFormat,
    name: '',
    zone: 'UTC',
    language,
    cover: usualCover,
    away: null,
    contact: null,
    isReachable: true,
    colleagues: [],
    clients: [],
    openMatters: [],
    held: [],
    sentAlerts: [],
    timers: [],
    ...noConversation,
  }
}

export function cardOf({ id, name, zone, cover, away }: Desk): DeskCard {
  return { desk: id, name, zone, cover, ...(away === null ? {} : { away }) }
}
