// A plan from a file takes the place of the one that a client has.
import { clinicId, type Clinic } from '#src/chart/clinic.ts'
import type { Event } from '#src/chart/event.ts'
import { newSecret } from '#src/app.ts'
import type { Delivery } from '#src/delivery/delivery.ts'
import { brandAs, type DocumentId, type EventId } from '#src/domain/identifier.ts'
import type { Plan } from '#src/domain/plan.ts'
import type { Head, Store } from '#src/ports/store.ts'
import { findTherapist } from './enrol-plan.ts'
import { InputError } from './input-error.ts'

export interface Replaced {
  /** Name or id. */
  readonly client: string
  readonly reason: string
}

export async function replacePlan(plan: Plan, { client, reason }: Replaced, store: Store, delivery: Delivery<Event>): Promise<{ chart: DocumentId }> {
  const chart = findClient(client, await store.heads('chart'))
  // A plan put to the wrong client is the mistake that would hurt most.
  if (plan.client.name !== chart.name) {
    throw new InputError('client.name in the plan is not the name of the client whose plan it is to replace. Name the right client, or mend client.name.')
  }
  const therapists = (await store.read<Clinic>(clinicId))?.therapists ?? []
  const therapist = findTherapist(plan.contacts.therapist.name, therapists)
  const second = therapists.find((card) => card.name === plan.contacts.second?.name) ?? null
  const id = brandAs<EventId>(`replace:${newSecret()}`)
  await delivery.submit(chart.id, { id, kind: 'told', from: clinicId, told: { kind: 'amended', plan, by: null, reason, therapist, second } })
  await delivery.idle()
  return { chart: chart.id }
}

function findClient(client: string, charts: readonly Head[]): Head {
  const found = charts.filter((chart) => chart.id === client || chart.name === client)
  const [only, ...others] = found
  if (only === undefined) throw new InputError(`No client is called ${client}. Write the name as in the plan, or the id.`)
  if (others.length > 0) throw new InputError(`${found.length} clients are called ${client}. Write the id instead: ${found.map(({ id }) => id).join(', ')}.`)
  return only
}
