import type { Chart } from '../chart.ts'
import type { Draft } from '../draft.ts'
import { closeSession } from './close-session.ts'
import { changeSession } from './session-state.ts'

const training: ReadonlySet<string> = new Set(['session', 'morning', 'weekly'])

/** An open session ends with what was done, and no question about training stays open. */
export function leaveTraining(draft: Draft<Chart>): void {
  draft.converse({ conversations: draft.document.conversations.filter(({ flow }) => !training.has(flow)) })
  if (draft.document.session === null) return
  changeSession(draft, { endedEarly: true, isOver: true })
  closeSession(draft)
}
