// One client at a glance, in short text.
import { chainOf, directionsOf, planOf, stateOf } from './plan-facts.ts'
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
  const directions = directionsOf(plan).map((direction) => {
    const state = ahead.find((one) => one.direction === direction)?.state ?? stateOf(chart, direction, draft.content)
    const chain = chainOf(plan, direction, draft.content)
    const place = placeAt(chain, locate(chain, state.place))
    return text('look.direction', { direction: text(`common.direction.${direction}`), rung: place.rung, dose: dose(place.exercise, place.dose) })
  })
  const why = [...ahead, ...(ahead.length === 0 ? chart.lastDecisions : [])].map((one) =>
    text('look.why', { decision: decision(one.decision), reasons: one.decision.reasons.map(reason).join(' ') }),
  )
  const next = chart.timers.find((timer) => timer.kind === 'reminder')
  const history = historyLine(draft)
  return [
    text('look.title', { client: plan.client.name, standing: text(`look.standing.${chart.lock ? 'locked' : chart.standing}`) }),
    ...directions,
    ...why,
    ...(history === null ? [] : [text('alert.history', { value: history })]),
    text('look.open', { alerts: chart.alerts.length, requests: chart.requests.filter((request) => !request.isDeclined).length }),
    ...(next ? [text('look.next', { time: time(next.dueAt) })] : []),
  ].join('\n')
}
