// A client's disability score, typed in at a therapist's desk; the client's chart keeps it and compares it.
import type { Conversation } from '#src/conversation/flow.ts'
import type { DocumentId } from '#src/domain/identifier.ts'
import { scoreDisability, type ItemScores } from '#src/rules/disability-score.ts'
import { describeChange } from '../describe-change.ts'
import type { Desk } from '../desk.ts'
import type { Draft } from '../draft.ts'
import type { ActionHandler, Values } from '../turn.ts'

export const disabilityActions: Readonly<Record<string, ActionHandler<Desk>>> = {
  'save-disability': (draft, { data }) => {
    const { id, name } = draft.document
    draft.tell(data.chart as DocumentId, { kind: 'scored', by: { desk: id, name }, items: itemsOf(data) })
  },
}

function itemsOf(data: Conversation['data']): ItemScores {
  return data.items as ItemScores
}

export function disabilityValues(draft: Draft<Desk>, { data }: Conversation, words: string): Values {
  const client = String(data.client)
  if (words !== 'disability.review') return { client }
  const score = scoreDisability(itemsOf(data))
  if (score.kind === 'too-many-gaps') throw new RangeError('a score with too many gaps cannot have been taken')
  const items = itemsOf(data).map((item) => item ?? '–').join(' ')
  const band = draft.words(draft.document.language).say(`outcomes.band.${score.band}`)
  return { client, items, raw: score.raw, percent: score.percent, band, answered: score.answered, change: changeSince(draft, data, score.raw) }
}

function changeSince(draft: Draft<Desk>, { lastOn, lastRaw }: Conversation['data'], raw: number): string {
  const words = draft.words(draft.document.language)
  if (typeof lastRaw !== 'number') return words.say('disability.first')
  const change = describeChange(words, draft.content.measures.of.disability, lastRaw, raw)
  return words.say('disability.since', { on: String(lastOn), last: lastRaw, change })
}
