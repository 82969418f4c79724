// What stands in the way of a ladder's progress today, worked out from the chart.
import type { LadderId } from '#src/domain/direction.ts'
import type { Reason } from '#src/domain/decision.ts'
import { progressGates, type GateFacts } from '#src/rules/progress-gates.ts'
import type { LadderState } from '#src/rules/ladder-state.ts'
import { daysBetween, localDateOf } from '#src/schedule/wall-time.ts'
import { locate, placeAt } from '#src/rules/moves.ts'
import type { Chart } from '../chart.ts'
import type { Draft } from '../draft.ts'
import { averageSince } from '../outcomes.ts'
import { chainOf, planOf, protocolOf, shownOf, todayOf } from './plan-facts.ts'

const weekMs = 7 * 24 * 3_600_000

/** The facts for a state that already counts the present session. */
export function gateFacts(draft: Draft<Chart>, ladder: LadderId, state: LadderState): GateFacts {
  const chart = draft.document
  const plan = planOf(chart)
  const chain = chainOf(plan, ladder, draft.content)
  const protocol = protocolOf(plan, draft.content)
  const index = locate(chain, state.place)
  const here = placeAt(chain, index)
  const next = chain.places[index + 1]
  const onRung = state.rungs[here.rung]
  const today = todayOf(draft)
  return {
    chain,
    state,
    protocol,
    exercises: draft.content.exercises,
    usualPain: plan.usualPain,
    weeklyAverage: averageSince(chart.outcomes, draft.at - weekMs),
    daysSinceReview: daysSinceReview(draft),
    shown: shownOf(chart, ladder),
    hasApproval: next !== undefined && hasApproval(draft, ladder, next.rung),
    sessionsOnRung: onRung?.sessions ?? 0,
    daysOnRung: onRung ? daysBetween(onRung.firstOn, today) : 0,
  }
}

export function gatesOf(draft: Draft<Chart>, ladder: LadderId, state: LadderState): readonly Reason[] {
  return progressGates(gateFacts(draft, ladder, state))
}

/** An approval lapses after fourteen days; one that a session not clean has ended is no longer in the chart. */
function hasApproval(draft: Draft<Chart>, ladder: LadderId, rung: number): boolean {
  const plan = planOf(draft.document)
  const { lapsesAfterDays } = protocolOf(plan, draft.content).approval
  return draft.document.approvals.some(
    (approval) =>
      approval.ladder === ladder &&
      approval.rung === rung &&
      daysBetween(localDateOf(approval.at, plan.zone), todayOf(draft)) <= lapsesAfterDays,
  )
}

export function daysSinceReview(draft: Draft<Chart>): number {
  const { zone } = planOf(draft.document)
  return daysBetween(localDateOf(draft.document.reviewedAt, zone), todayOf(draft))
}
