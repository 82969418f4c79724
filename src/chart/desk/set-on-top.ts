import type { Conversation } from '#src/conversation/flow.ts'
import type { Desk } from '../desk.ts'
import type { Draft } from '../draft.ts'

/** What the top conversation has gathered becomes this. */
export function setOnTop(draft: Draft<Desk>, data: Conversation['data']): void {
  const stack = draft.document.conversations
  const top = stack.at(-1)
  if (top) draft.converse({ conversations: [...stack.slice(0, -1), { ...top, data }] })
}
