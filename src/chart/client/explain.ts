// "Why": the open question's reason, and the rules behind the present dose.
import type { Chart } from '../chart.ts'
import type { Draft } from '../draft.ts'
import { openQuestion } from '../turn.ts'
import { say } from './say.ts'

export function explain(draft: Draft<Chart>): string {
  const { text, words, reason, decision } = say(draft, 'client')
  const open = openQuestion(draft)
  const why = open && words.has(`${open.words}.why`) ? [text(`${open.words}.why`)] : []
  const last = draft.document.lastDecisions.map((one) =>
    text('common.why-dose', { decision: decision(one.decision), reasons: one.decision.reasons.map(reason).join(' ') }),
  )
  const isAboutDose = open === null || open.conversation.state === 'set' || open.conversation.state === 'ready'
  const lines = [...why, ...(isAboutDose ? last : [])]
  return lines.length > 0 ? lines.join('\n\n') : text('common.why-nothing')
}
