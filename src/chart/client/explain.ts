// "Why": the open question's reason, and the rules behind the present dose, in a few words.
import { laddersOf } from '#src/rules/plan-ladders.ts'
import type { Decision } from '#src/domain/decision.ts'
import type { LadderId } from '#src/domain/direction.ts'
import type { Chart } from '../chart.ts'
import type { Draft } from '../draft.ts'
import { openQuestion } from '../turn.ts'
import { planOf } from './plan-facts.ts'
import { say } from './say.ts'
import { decisionsOf } from './settle-pending.ts'

export interface ToldDecision {
  readonly ladder: LadderId
  readonly decision: Decision
}

/** Of the session that the client last heard about: its decisions may wait for the morning still. */
export function decisionsTold({ document, content }: Draft<Chart>): readonly ToldDecision[] {
  const ahead = decisionsOf(document, content, true)
  return ahead.length > 0 ? ahead : document.lastDecisions
}

export function explain(draft: Draft<Chart>): string {
  const { text, words, reason, decision } = say(draft, 'client')
  const open = openQuestion(draft)
  const why = open && words.has(`${open.words}.why`) ? [text(`${open.words}.why`)] : []
  const isOneOfMany = laddersOf(planOf(draft.document)).length > 1
  const last = decisionsTold(draft).map((one) => {
    const values = { decision: decision(one.decision), reasons: one.decision.reasons.map(reason).join(' ') }
    if (!isOneOfMany) return text('common.why-dose', values)
    return text('explain.client.short-of', { ...values, ladder: text(`common.ladder.${one.ladder}`) })
  })
  const isAboutDose = open === null || open.conversation.state === 'set' || open.conversation.state === 'ready'
  const dose = isAboutDose && last.length > 0 ? [...last, text('explain.client.more')] : []
  const lines = [...why, ...dose]
  return lines.length > 0 ? lines.join('\n\n') : text('common.why-nothing')
}
