// An alert that locks is sent until a person acknowledges it, and opens again where no contact is recorded.
import type { AlertId } from '#src/domain/identifier.ts'
import type { Alert } from '../alert.ts'
import type { Chart, Lock } from '../chart.ts'
import { clinicId } from '../clinic.ts'
import type { DeskCard } from '../desk-card.ts'
import type { Draft } from '../draft.ts'
import type { Actor, Shown } from '../event.ts'
import { withoutTimer, withTimer } from '../timer.ts'
import { shownAlert, tellDesk, tellEveryDesk } from './alert-message.ts'
import { planOf } from './plan-facts.ts'
import { say } from './say.ts'
import { knownStaff, standbyFor } from './standby.ts'

const minuteMs = 60_000

export function findAlert(chart: Chart, id: string): Alert | null {
  return chart.alerts.find((alert) => alert.id === id) ?? null
}

export function changeAlert(draft: Draft<Chart>, id: AlertId, patch: Partial<Alert>): void {
  draft.change({ alerts: draft.document.alerts.map((alert) => (alert.id === id ? { ...alert, ...patch } : alert)) })
}

export function startEscalation(draft: Draft<Chart>, alert: Alert): void {
  send(draft, alert)
  scheduleResend(draft, alert)
}

/** Sent again to the therapist, then to the second contact as well, then to the whole clinic, then every half hour. */
export function resend(draft: Draft<Chart>, id: string): void {
  const alert = findAlert(draft.document, id)
  if (!alert || alert.acknowledged) return
  const again = { ...alert, sendings: alert.sendings + 1 }
  changeAlert(draft, alert.id, { sendings: again.sendings })
  draft.record('alert-sent-again', 'nuchal', { alert: alert.id, sending: again.sendings })
  send(draft, again)
  scheduleResend(draft, again)
}

/** The first two go to whoever gets it at once, the third to the second contact too, later ones to everybody. */
const sendingsAtOnce = 2
const sendingsBeforeAll = 3

/** Off duty or not: who is on duty instead is worked out anew each time. */
function send(draft: Draft<Chart>, alert: Alert): void {
  const { therapist, second } = draft.document
  if (!therapist || alert.level === 'routine') return
  const { readers, isForAll } = standbyFor(draft.document, alert.level, draft.at)
  if (isForAll || alert.sendings > sendingsBeforeAll) return sendToAll(draft, alert, therapist, [])
  const isForSecond = alert.sendings > sendingsAtOnce && second !== null && readers.every(({ desk }) => desk !== second.desk)
  sendTo(draft, alert, isForSecond ? [...readers, second] : readers)
}

/** `lead` goes before it, where there is something to say about why it comes. */
export function sendTo(draft: Draft<Chart>, alert: Alert, readers: readonly DeskCard[], lead: string | null = null): void {
  for (const reader of readers) {
    const others = readers.filter((one) => one !== reader).map(({ name }) => name)
    tellDesk(draft, reader.desk, led(shownAlert(draft, alert, { reader, others, isForAll: false }), lead))
  }
  noteSent(draft, alert.id, readers.map(({ desk }) => desk))
}

export function sendToAll(draft: Draft<Chart>, alert: Alert, reader: DeskCard, except: Alert['sentTo'], lead: string | null = null): void {
  tellEveryDesk(draft, led(shownAlert(draft, alert, { reader, others: [], isForAll: true }), lead), except)
  noteSent(draft, alert.id, [clinicId])
}

/** With what has been added, to whoever has it. */
export function sendAgain(draft: Draft<Chart>, alert: Alert): void {
  const { therapist } = draft.document
  if (!therapist) return
  if (alert.sentTo.includes(clinicId)) return sendToAll(draft, alert, therapist, [])
  sendTo(draft, alert, knownStaff(draft.document).filter(({ desk }) => alert.sentTo.includes(desk)))
}

function led(shown: Shown, lead: string | null): Shown {
  return lead === null ? shown : { ...shown, text: `${lead}\n${shown.text}` }
}

function noteSent(draft: Draft<Chart>, id: AlertId, desks: Alert['sentTo']): void {
  const before = findAlert(draft.document, id)?.sentTo ?? []
  changeAlert(draft, id, { sentTo: [...before, ...desks.filter((desk) => !before.includes(desk))] })
}

function scheduleResend(draft: Draft<Chart>, alert: Alert): void {
  if (alert.level === 'routine') return
  const { resendAfter, everyAfterwards } = draft.content.triage.escalation
  const minutes = alert.sendings > sendingsBeforeAll ? everyAfterwards : resendAfter[alert.level]
  const dueAt = draft.at + minutes * minuteMs
  draft.change({ timers: withTimer(draft.document.timers, { kind: 'resend-alert', about: alert.id, dueAt }) })
}

/** Acknowledging stops the re-sending and starts the time within which somebody must have reached the client. */
export function acknowledge(draft: Draft<Chart>, alert: Alert, by: Actor): void {
  changeAlert(draft, alert.id, { acknowledged: { by: by.name, at: draft.at } })
  draft.record('alert-acknowledged', by.name, { alert: alert.id })
  const timers = withoutTimer(draft.document.timers, 'resend-alert', alert.id)
  if (alert.level === 'routine' || alert.contacted) return draft.change({ timers })
  const dueAt = draft.at + draft.content.triage.escalation.contactWithin[alert.level] * minuteMs
  draft.change({ timers: withTimer(timers, { kind: 'contact-due', about: alert.id, dueAt }) })
}

/** Whoever else was sent the alert hears what a colleague has done, so that nobody runs twice. */
export function tellOthers(draft: Draft<Chart>, alert: Alert, by: Actor, done: 'acknowledged' | 'contacted' | 'cleared'): void {
  const values = { client: planOf(draft.document).client.name, name: by.name }
  const shown: Shown = { text: say(draft, 'therapist').text(`alert.others.${done}`, values), buttons: [], urgency: 'reply', alert: null }
  if (alert.sentTo.includes(clinicId)) return tellEveryDesk(draft, shown, [by.desk])
  for (const desk of alert.sentTo) if (desk !== by.desk) tellDesk(draft, desk, shown)
}

/** Nobody has recorded a contact in time: the alert is open again. */
export function reopen(draft: Draft<Chart>, id: string): void {
  const alert = findAlert(draft.document, id)
  if (!alert || alert.contacted) return
  changeAlert(draft, alert.id, { acknowledged: null })
  draft.record('alert-reopened', 'nuchal', { alert: alert.id })
  resend(draft, id)
}

/** The gravest of the open ones that lock, the newest of them; null where there is none. */
export function gravestAlert({ alerts }: Chart): (Alert & { readonly level: Lock['level'] }) | null {
  const locking = alerts.filter((alert): alert is Alert & { readonly level: Lock['level'] } => alert.level !== 'routine')
  return locking.findLast(({ level }) => level === 'emergency') ?? locking.at(-1) ?? null
}
