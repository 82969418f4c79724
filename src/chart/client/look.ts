// One client at a glance, in short text.
import type { Decision } from '#src/domain/decision.ts'
import type { LadderId } from '#src/domain/direction.ts'
import type { Chart } from '../chart.ts'
import type { Draft } from '../draft.ts'
import { historyLine } from './alert-message.ts'
import { describeOutcomes } from './describe-outcomes.ts'
import { describeTraining } from './describe-training.ts'
import { describePause } from './pause.ts'
import { planOf } from './plan-facts.ts'
import { placesAhead } from './places-ahead.ts'
import { say } from './say.ts'

export function lookAt(draft: Draft<Chart>): string {
  const chart = draft.document
  const { text, time } = say(draft, 'therapist')
  const next = chart.timers.find((timer) => timer.kind === 'reminder')
  const history = historyLine(draft)
  const parts = [
    [text('look.title', { client: planOf(chart).client.name, standing: text(`look.standing.${chart.lock ? 'locked' : chart.standing}`) }), ...describePause(draft)],
    laddersAhead(draft),
    history === null ? [] : [text('alert.history', { value: history })],
    describeTraining(draft),
    describeOutcomes(draft),
    [
      text('look.open', { alerts: chart.alerts.length, requests: chart.requests.filter((request) => !request.isDeclined).length }),
      ...(next ? [text('look.next', { time: time(next.dueAt) })] : []),
    ],
  ]
  return parts.filter((lines) => lines.length > 0).map((lines) => lines.join('\n')).join('\n\n')
}

/** Each ladder's next dose, and why it is what it is. */
function laddersAhead(draft: Draft<Chart>): readonly string[] {
  const { text, dose } = say(draft, 'therapist')
  return [...placesAhead(draft.document, draft.content)].flatMap(([ladder, { place, decision }]) => {
    const values = { direction: text(`common.ladder.${ladder}`), rung: place.rung, dose: dose(place.exercise, place.dose, null) }
    return [text('look.direction', values), ...whyOf(draft, decision ?? lastDecision(draft.document, ladder))]
  })
}

function lastDecision(chart: Chart, ladder: LadderId): Decision | undefined {
  return chart.lastDecisions.find((one) => one.ladder === ladder)?.decision
}

function whyOf(draft: Draft<Chart>, decided: Decision | undefined): readonly string[] {
  const { text, decision, reason } = say(draft, 'therapist')
  return decided === undefined ? [] : [text('look.why', { decision: decision(decided), reasons: decided.reasons.map(reason).join(' ') })]
}
