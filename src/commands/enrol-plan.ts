// A client enrolled from a plan file: the same events as an enrolment by questions.
import type { Clinic } from '#src/chart/clinic.ts'
import { clinicId } from '#src/chart/clinic.ts'
import type { DeskCard } from '#src/chart/desk-card.ts'
import { digestOf, documentIdFrom } from '#src/chart/digest.ts'
import type { Event } from '#src/chart/event.ts'
import { invitationLastsMs } from '#src/chart/desk/enrol-client.ts'
import type { Delivery } from '#src/delivery/delivery.ts'
import { brandAs, type EventId, type Instant } from '#src/domain/identifier.ts'
import type { Plan } from '#src/domain/plan.ts'
import type { Store } from '#src/ports/store.ts'
import { newSecret } from '#src/app.ts'
import { InputError } from './input-error.ts'

export interface Enrolled {
  readonly token: string
  readonly expiresAt: Instant
  /** Who gets the alerts; null where the clinic has no therapist yet. */
  readonly therapist: string | null
}

export async function enrolPlan(plan: Plan, store: Store, delivery: Delivery<Event>, now: Instant): Promise<Enrolled> {
  const clinic = await store.read<Clinic>(clinicId)
  const therapists = clinic?.therapists ?? []
  const therapist = findTherapist(plan.contacts.therapist.name, therapists)
  const second = plan.contacts.second === null ? null : (therapists.find((card) => card.name === plan.contacts.second?.name) ?? null)
  const token = newSecret()
  const id = (part: string): EventId => brandAs<EventId>(`enrol:${digestOf(token)}:${part}`)
  const chart = documentIdFrom('chart', id('chart'))
  const expiresAt = now + invitationLastsMs
  await delivery.submit(chart, { id: id('plan'), kind: 'told', from: clinicId, told: { kind: 'enrolled', plan, therapist, second } })
  if (therapist === null) await delivery.submit(clinicId, { id: id('awaiting'), kind: 'told', from: chart, told: { kind: 'awaiting', chart } })
  await delivery.submit(clinicId, { id: id('invited'), kind: 'told', from: chart, told: { kind: 'invited', digest: digestOf(token), chart, expiresAt } })
  return { token, expiresAt, therapist: therapist?.name ?? null }
}

/** By name; the only therapist of a clinic is taken under any name, since there is nobody else to read an alert. */
export function findTherapist(name: string, therapists: readonly DeskCard[]): DeskCard | null {
  const named = therapists.find((card) => card.name === name)
  if (named) return named
  if (therapists.length <= 1) return therapists[0] ?? null
  const names = therapists.map((card) => card.name).join(', ')
  throw new InputError(`contacts.therapist.name is nobody of this clinic. Write one of: ${names}.`)
}
