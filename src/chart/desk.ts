import type { DocumentId } from '#src/domain/identifier.ts'
import type { Contact } from '#src/domain/message.ts'
import type { WallTime, Weekday } from '#src/domain/plan.ts'
import { noConversation, type ConversationState } from './conversation-state.ts'

/** When a therapist is on duty. */
export interface Cover {
  readonly days: readonly Weekday[]
  readonly from: WallTime
  readonly to: WallTime
}

/** What other documents know of a therapist. */
export interface DeskCard {
  readonly desk: DocumentId
  readonly name: string
  readonly zone: string
  readonly cover: Cover
}

/** One therapist's conversation. */
export interface Desk extends ConversationState {
  readonly kind: 'desk'
  readonly id: DocumentId
  readonly format: 1
  readonly name: string
  readonly zone: string
  readonly language: string
  readonly cover: Cover
  readonly contact: Contact | null
  readonly isReachable: boolean
  readonly colleagues: readonly DeskCard[]
  readonly clients: readonly { readonly chart: DocumentId; readonly name: string }[]
}

/** Weekday office hours, until the therapist says otherwise. */
const usualCover: Cover = { days: ['mon', 'tue', 'wed', 'thu', 'fri'], from: '08:00', to: '18:00' }

export function newDesk(id: DocumentId, language: string): Desk {
  return {
    kind: 'desk',
    id,
    format: 1,
    name: '',
    zone: 'UTC',
    language,
    cover: usualCover,
    contact: null,
    isReachable: true,
    colleagues: [],
    clients: [],
    ...noConversation,
  }
}

export function cardOf(desk: Desk): DeskCard {
  return { desk: desk.id, name: desk.name, zone: desk.zone, cover: desk.cover }
}
