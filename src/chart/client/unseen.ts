// An alert that does not get through goes to somebody else at once; where it gets through to nobody, the client is told.
import type { DocumentId } from '#src/domain/identifier.ts'
import type { Alert } from '../alert.ts'
import type { Chart } from '../chart.ts'
import { clinicId } from '../clinic.ts'
import type { Draft } from '../draft.ts'
import type { EventOf, ToldOf, Unseen } from '../event.ts'
import { flushNotes } from '../turn.ts'
import { actButton, tellEveryDesk } from './alert-message.ts'
import { clientParty } from './client-party.ts'
import { changeAlert, findAlert, gravestAlert, sendTo, sendToAll } from './escalate.ts'
import { planOf } from './plan-facts.ts'
import { say } from './say.ts'
import { knownStaff } from './standby.ts'

/** A therapist's desk tells that an alert has not arrived there. Once somebody has acknowledged it, that is no matter. */
export function hearUnseen(draft: Draft<Chart>, { alert: id, desk, reason }: ToldOf<'unseen'>): void {
  const alert = findAlert(draft.document, id)
  if (!alert || alert.acknowledged) return
  if (!alert.unreached.includes(desk)) {
    changeAlert(draft, alert.id, { unreached: [...alert.unreached, desk] })
    draft.record('alert-unseen', 'nuchal', { alert: id, desk, reason })
  }
  passOn(draft, alert, desk, reason)
  tellClientIfNobody(draft, id)
}

/** Where it is only late, the second contact gets it before everybody does. Whoever had it already gets it no more often. */
function passOn(draft: Draft<Chart>, alert: Alert, desk: DocumentId, reason: Unseen): void {
  const { therapist, second } = draft.document
  if (!therapist || alert.sentTo.includes(clinicId)) return
  const name = knownStaff(draft.document).find((card) => card.desk === desk)?.name ?? ''
  const lead = say(draft, 'therapist').text('alert.passed-on', { name, isLate: reason === 'delayed' ? 'yes' : 'no' })
  const isSecondNext = reason === 'delayed' && second !== null && !alert.sentTo.includes(second.desk)
  if (isSecondNext) sendTo(draft, alert, [second], lead)
  else sendToAll(draft, alert, therapist, [...alert.sentTo, desk], lead)
}

function tellClientIfNobody(draft: Draft<Chart>, id: string): void {
  const alert = findAlert(draft.document, id)
  const staff = knownStaff(draft.document)
  if (!alert || alert.level === 'routine' || alert.hasReachedNobody) return
  if (!staff.every(({ desk }) => alert.unreached.includes(desk))) return
  const { emergencyNumber, outOfHoursNumber } = planOf(draft.document)
  const said = say(draft, 'client').text(`flag.nobody-reached-${alert.level}`, { number: emergencyNumber, outOfHours: outOfHoursNumber })
  changeAlert(draft, alert.id, { hasReachedNobody: true, told: alert.told === null ? said : `${alert.told}\n${said}` })
  draft.record('nobody-reached', 'nuchal', { alert: alert.id, level: alert.level, told: said })
  draft.isUrgent = true
  draft.say(said)
  flushNotes(draft, clientParty)
}

/** What the client is to do has not gone out for a minute: somebody should phone. It goes on being tried. */
export function noteDelayed(draft: Draft<Chart>, { effect }: EventOf<'delayed'>): void {
  const alert = gravestAlert(draft.document)
  draft.record('client-message-delayed', 'nuchal', { effect: effect.id, alert: alert?.id ?? null })
  const { text } = say(draft, 'therapist')
  const { client } = planOf(draft.document)
  tellEveryDesk(draft, {
    text: text('alert.client-message-delayed', { client: client.name }),
    buttons: alert === null ? [] : [[actButton(draft, 'acknowledge', alert.id, text('alert.press.acknowledge'))]],
    urgency: 'alert',
    alert: alert === null ? null : { chart: draft.document.id, id: alert.id },
  })
}
