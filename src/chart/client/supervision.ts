// The four-weekly review: told when it is due, and the rules hold progress until it is done.
import type { Chart } from '../chart.ts'
import type { Draft } from '../draft.ts'
import { withTimer } from '../timer.ts'
import { actButton, tellTherapist } from './alert-message.ts'
import { planOf, protocolOf } from './plan-facts.ts'
import { newAlert } from './new-alert.ts'
import { measureButton, takeDueRetest } from './retest.ts'
import { say } from './say.ts'

const dayMs = 24 * 3_600_000

export function scheduleSupervision(draft: Draft<Chart>): void {
  const { noProgressAfterDays } = protocolOf(planOf(draft.document), draft.content).supervision
  const dueAt = draft.document.reviewedAt + noProgressAfterDays * dayMs
  draft.change({ timers: withTimer(draft.document.timers, { kind: 'supervision', about: '', dueAt }) })
}

export function askForReview(draft: Draft<Chart>): void {
  const plan = planOf(draft.document)
  const { supervision } = protocolOf(plan, draft.content)
  const { text } = say(draft, 'therapist')
  const values = { client: plan.client.name, days: supervision.noProgressAfterDays, limit: supervision.noSessionAfterDays }
  const retest = takeDueRetest(draft)
  const alert = newAlert(draft, { level: 'routine', sign: null, title: text('alert.review-due', values), words: null, isConfirmed: true, told: null })
  tellTherapist(draft, {
    text: [text('alert.review-due', values), ...(retest === null ? [] : [retest])].join('\n'),
    buttons: [
      [actButton(draft, 'review', alert.id, text('alert.press.review'))],
      [actButton(draft, 'look', 'now', text('alert.press.look'))],
      ...(retest === null ? [] : [[measureButton(draft)]]),
    ],
    urgency: 'reply',
    alert: { chart: draft.document.id, id: alert.id },
    mayWait: true,
  })
}

export function recordReview(draft: Draft<Chart>, by: string): void {
  draft.change({ reviewedAt: draft.at })
  draft.record('review', by, {})
  scheduleSupervision(draft)
}
