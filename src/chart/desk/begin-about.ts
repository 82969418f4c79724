import type { Conversation } from '#src/conversation/flow.ts'
import type { Desk } from '../desk.ts'
import type { Draft } from '../draft.ts'
import { bringOn, push } from '../turn.ts'
import { deskParty } from './desk-party.ts'

/** Begins a conversation about one client. Pressed twice, it is asked once: what was begun about them starts anew. */
export function beginAbout(draft: Draft<Desk>, flow: string, data: Conversation['data']): void {
  const others = draft.document.conversations.filter((one) => one.flow !== flow || one.data.chart !== data.chart)
  draft.converse({ conversations: others })
  push(draft, flow, undefined, data)
  bringOn(draft, deskParty)
}
