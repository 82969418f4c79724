// A therapist's answer to a client's message goes to the client's chart, which sends it on.
import type { DocumentId } from '#src/domain/identifier.ts'
import type { Desk } from '../desk.ts'
import type { ActionHandler } from '../turn.ts'

export const answeringActions: Readonly<Record<string, ActionHandler<Desk>>> = {
  'send-answer': (draft, { data }) => {
    const { id, name } = draft.document
    draft.tell(data.chart as DocumentId, { kind: 'answered', by: { desk: id, name }, text: String(data.text) })
  },
}
