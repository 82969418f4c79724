// A confirmed enrolment: the client's chart begins, and the invitation is handed to the therapist.
import type { Plan } from '#src/domain/plan.ts'
import { describeInstant } from '#src/schedule/describe-instant.ts'
import { clinicId } from '../clinic.ts'
import { cardOf, type Desk } from '../desk.ts'
import { digestOf, documentIdFrom } from '../digest.ts'
import type { Draft } from '../draft.ts'
import type { FreshInvitation } from '../event.ts'
import { saySignature } from './triage-signature.ts'

const dayMs = 24 * 3_600_000
/** An invitation not opened within a week is asked for again. */
export const invitationLastsMs = 7 * dayMs

export function enrolClient(draft: Draft<Desk>, plan: Plan): void {
  const chart = documentIdFrom('chart', draft.eventId)
  const second = draft.document.colleagues.find((card) => card.name === plan.contacts.second?.name) ?? null
  draft.record('enrolled', draft.document.name, { chart })
  draft.tell(chart, { kind: 'enrolled', plan, therapist: cardOf(draft.document), second })
  const text = invite(draft, chart)
  draft.say(draft.words(draft.document.language).say('desk.invitation.client', { name: plan.client.name, ...text }))
  saySignature(draft)
}

/** Tells the clinic of an invitation; gives back its link and when it ends. */
export function invite(draft: Draft<Desk>, chart: ReturnType<typeof documentIdFrom> | null): { link: string; until: string } {
  const { token, link }: FreshInvitation = draft.invitation
  // It would open to whoever brings nothing.
  if (token === '') throw new TypeError('an event that brings no invitation gives none out')
  const expiresAt = draft.at + invitationLastsMs
  draft.tell(clinicId, { kind: 'invited', digest: digestOf(token), chart, expiresAt })
  return { link, until: describeInstant(expiresAt, draft.document.zone, draft.document.language) }
}
