// One client at a glance, in short text.
import { chainOf, planOf, stateOf } from './plan-facts.ts'
import { laddersOf } from '#src/rules/plan-ladders.ts'
import { locate, placeAt } from '#src/rules/moves.ts'
import type { Chart } from '../chart.ts'
import type { Draft } from '../draft.ts'
import { historyLine } from './alert-message.ts'
import { decisionsOf } from './settle-pending.ts'
import { say } from './say.ts'

export function lookAt(draft: Draft<Chart>): string {
  const chart = draft.document
  const plan = planOf(chart)
  const { text, dose, decision, reason, time } = say(draft, 'therapist')
  const ahead = decisionsOf(chart, draft.content, true)
  const ladders = laddersOf(plan).map((ladder) => {
    const state = ahead.find((one) => one.ladder === ladder)?.state ?? stateOf(chart, ladder, draft.content)
    const chain = chainOf(plan, ladder, draft.content)
    const place = placeAt(chain, locate(chain, state.place))
    return text('look.direction', { direction: text(`common.ladder.${ladder}`), rung: place.rung, dose: dose(place.exercise, place.dose, null) })
  })
  const why = [...ahead, ...(ahead.length === 0 ? chart.lastDecisions : [])].map((one) =>
    text('look.why', { decision: decision(one.decision), reasons: one.decision.reasons.map(reason).join(' ') }),
  )
  const next = chart.timers.find((timer) => timer.kind === 'reminder')
  const history = historyLine(draft)
  return [
    text('look.title', { client: plan.client.name, standing: text(`look.standing.${chart.lock ? 'locked' : chart.standing}`) }),
    ...ladders,
    ...why,
    ...(history === null ? [] : [text('alert.history', { value: history })]),
    text('look.open', { alerts: chart.alerts.length, requests: chart.requests.filter((request) => !request.isDeclined).length }),
    ...(next ? [text('look.next', { time: time(next.dueAt) })] : []),
  ].join('\n')
}
