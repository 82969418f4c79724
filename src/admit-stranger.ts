// What an unknown chat sends is weighed before the clinic hears of it: how often it was wrong, and how often it was answered.
import type { Clinic } from '#src/chart/clinic.ts'
import { invitationOf, isAtClaim, opensClaim } from '#src/chart/clinic/admission.ts'
import type { Event } from '#src/chart/event.ts'
import type { Instant } from '#src/domain/identifier.ts'
import { createTryLimits, wrongTriesOverAllAnHour } from './try-limits.ts'

/** Gives the event on, changed where it is the chat's last try; null where nothing is to be said. */
export type AdmitStranger = (clinic: Clinic, event: Event, at: Instant) => Event | null

/** Told once each time that so many tries were wrong within an hour that somebody may be guessing. */
export type OnTriedOften = (tries: number, at: Instant) => void

export function createAdmitStranger(onTriedOften: OnTriedOften): AdmitStranger {
  const limits = createTryLimits()
  return (clinic, event, at) => {
    if (!isFromStranger(event)) return event
    const admittance = limits.admittance(event.from, at)
    if (admittance === 'closed') return null
    if (!isTry(clinic, event)) return limits.mayAnswer(event.from, at) ? event : null
    // A code is short enough to be guessed, so it waits; an invitation is not, and nobody's guesses keep its holder out.
    if (admittance === 'slow' && event.kind === 'message') return null
    if (isRight(clinic, event, at)) return event
    const { isLast, isOften } = limits.noteWrong(event.from, at)
    if (isOften) onTriedOften(wrongTriesOverAllAnHour, at)
    if (admittance === 'slow') return null
    return isLast ? { ...event, isLastTry: true } : event
  }
}

type FromStranger = Extract<Event, { kind: 'message' | 'unreadable' | 'press' | 'join' }>
type Try = Extract<Event, { kind: 'message' | 'join' }>

/** Only of events that were routed to the clinic: whoever has a record of their own is no stranger. */
function isFromStranger(event: Event): event is FromStranger {
  if (event.kind === 'join') return !event.isKnown
  return event.kind === 'message' || event.kind === 'unreadable' || event.kind === 'press'
}

function isTry(clinic: Clinic, event: FromStranger): event is Try {
  return event.kind === 'join' || (event.kind === 'message' && isAtClaim(clinic, event.text))
}

function isRight(clinic: Clinic, event: Try, at: Instant): boolean {
  return event.kind === 'join' ? invitationOf(clinic, event.token, at) !== null : opensClaim(clinic, event.text)
}
