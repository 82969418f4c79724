// A new alert in the chart and in the record.
import { sideOf } from '#src/domain/direction.ts'
import { brandAs, type AlertId } from '#src/domain/identifier.ts'
import type { Alert } from '../alert.ts'
import type { Chart } from '../chart.ts'
import type { Draft } from '../draft.ts'
import { say } from './say.ts'
import { nextSet, sessionOf } from './session-state.ts'

export type NewAlert = Pick<Alert, 'level' | 'sign' | 'title' | 'words' | 'isConfirmed' | 'told' | 'matched'> & { readonly during?: string | null }

export function newAlert(draft: Draft<Chart>, given: NewAlert): Alert {
  const id = brandAs<AlertId>(`a${draft.document.alertsRaised + 1}`)
  const alert: Alert = {
    during: describeMoment(draft),
    ...given,
    id,
    raisedAt: draft.at,
    clientSaid: null,
    acknowledged: null,
    contacted: null,
    sendings: 1,
    sentTo: [],
    unreached: [],
    hasReachedNobody: false,
  }
  draft.change({ alerts: [...draft.document.alerts, alert], alertsRaised: draft.document.alertsRaised + 1 })
  // What the client was told stays in the record when the alert is cleared.
  const { level, sign, title, isConfirmed, told } = alert
  draft.record('alert', 'nuchal', { alert: id, level, sign, text: title, isConfirmed, told })
  return alert
}

/** How many alerts there had been with this one. */
export function alertNumber(id: AlertId): number {
  return Number(id.slice(1))
}

/** Exercise, dose and set at this moment; null outside a session. */
export function describeMoment(draft: Draft<Chart>): string | null {
  if (draft.document.session === null) return null
  const { text, dose } = say(draft, 'therapist')
  const next = nextSet(draft)
  if (next === null || !sessionOf(draft.document).hasWarmedUp) return text('alert.moment.before-sets')
  const { place, direction, dose: whole } = next.prescribed
  const values = { dose: dose(place.exercise, { ...next.dose, sets: 1 }, sideOf(direction)), number: next.number, sets: whole.sets }
  return text('alert.moment.set', values)
}
