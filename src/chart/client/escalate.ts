// An alert that locks is sent until a person acknowledges it, and opens again where no contact is recorded.
import type { AlertId } from '#src/domain/identifier.ts'
import type { Alert } from '../alert.ts'
import type { Chart } from '../chart.ts'
import type { DeskCard } from '../desk.ts'
import type { Draft } from '../draft.ts'
import { withoutTimer, withTimer } from '../timer.ts'
import { shownAlert, tellDesk, tellEveryDesk } from './alert-message.ts'

const minuteMs = 60_000

export function findAlert(chart: Chart, id: string): Alert | null {
  return chart.alerts.find((alert) => alert.id === id) ?? null
}

export function changeAlert(draft: Draft<Chart>, id: AlertId, patch: Partial<Alert>): void {
  draft.change({ alerts: draft.document.alerts.map((alert) => (alert.id === id ? { ...alert, ...patch } : alert)) })
}

export function startEscalation(draft: Draft<Chart>, alert: Alert): void {
  sendTo(draft, alert, draft.document.therapist)
  scheduleResend(draft, alert)
}

/** Sent again to the therapist, then to the second contact as well, then to the whole clinic, then every half hour. */
export function resend(draft: Draft<Chart>, id: string): void {
  const alert = findAlert(draft.document, id)
  if (!alert || alert.acknowledged) return
  changeAlert(draft, alert.id, { sendings: alert.sendings + 1 })
  const again = { ...alert, sendings: alert.sendings + 1 }
  draft.record('alert-sent-again', 'nuchal', { alert: alert.id, sending: again.sendings })
  const { therapist, second } = draft.document
  if (again.sendings > sendingsBeforeAll && therapist) tellEveryDesk(draft, shownAlert(draft, again, therapist, true))
  else {
    sendTo(draft, again, therapist)
    if (again.sendings > sendingsToTherapist) sendTo(draft, again, second)
  }
  scheduleResend(draft, again)
}

/** The first two go to the therapist alone, the third to the second contact too, later ones to everybody. */
const sendingsToTherapist = 2
const sendingsBeforeAll = 3

function sendTo(draft: Draft<Chart>, alert: Alert, reader: DeskCard | null): void {
  if (reader) tellDesk(draft, reader.desk, shownAlert(draft, alert, reader))
}

function scheduleResend(draft: Draft<Chart>, alert: Alert): void {
  if (alert.level === 'routine') return
  const { resendAfter, everyAfterwards } = draft.content.triage.escalation
  const minutes = alert.sendings > sendingsBeforeAll ? everyAfterwards : resendAfter[alert.level]
  const dueAt = draft.at + minutes * minuteMs
  draft.change({ timers: withTimer(draft.document.timers, { kind: 'resend-alert', about: alert.id, dueAt }) })
}

/** Acknowledging stops the re-sending and starts the time within which somebody must have reached the client. */
export function acknowledge(draft: Draft<Chart>, alert: Alert, by: string): void {
  changeAlert(draft, alert.id, { acknowledged: { by, at: draft.at } })
  draft.record('alert-acknowledged', by, { alert: alert.id })
  const timers = withoutTimer(draft.document.timers, 'resend-alert', alert.id)
  if (alert.level === 'routine' || alert.contacted) return draft.change({ timers })
  const dueAt = draft.at + draft.content.triage.escalation.contactWithin[alert.level] * minuteMs
  draft.change({ timers: withTimer(timers, { kind: 'contact-due', about: alert.id, dueAt }) })
}

/** Nobody has recorded a contact in time: the alert is open again. */
export function reopen(draft: Draft<Chart>, id: string): void {
  const alert = findAlert(draft.document, id)
  if (!alert || alert.contacted) return
  changeAlert(draft, alert.id, { acknowledged: null })
  draft.record('alert-reopened', 'nuchal', { alert: alert.id })
  resend(draft, id)
}
