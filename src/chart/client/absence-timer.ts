import type { Chart } from '../chart.ts'
import type { Draft } from '../draft.ts'
import { withTimer } from '../timer.ts'
import { planOf, protocolOf } from './plan-facts.ts'

const dayMs = 24 * 3_600_000

/** Told when no session follows for this long, whatever came before: joining, a session, a lock lifted. */
export function scheduleAbsence(draft: Draft<Chart>): void {
  const { easeAfterDays } = protocolOf(planOf(draft.document), draft.content).absence
  draft.change({ timers: withTimer(draft.document.timers, { kind: 'absence', about: '', dueAt: draft.at + easeAfterDays * dayMs }) })
}
