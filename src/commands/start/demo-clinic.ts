// A clinic of invented people, on the same paths that real ones take.
import { contentFolder, newSecret, type App } from '#src/app.ts'
import type { Product } from '#src/handler.ts'
import { clinicId, type Clinic } from '#src/chart/clinic.ts'
import type { Cover } from '#src/chart/desk-card.ts'
import { documentIdFrom } from '#src/chart/digest.ts'
import { readPlan } from '#src/content/read-plan.ts'
import { brandAs, type EventId } from '#src/domain/identifier.ts'
import type { Contact } from '#src/domain/message.ts'
import { weekdays } from '#src/domain/plan.ts'
import type { Clock } from '#src/ports/clock.ts'
import type { Store } from '#src/ports/store.ts'
import { enrolPlan } from '../enrol-plan.ts'
import { readInputFile } from '../read-input-file.ts'

const planFile = `${contentFolder}/plans/extension.yaml`
const officeHours: Cover = { days: ['mon', 'tue', 'wed', 'thu', 'fri'], from: '08:00', to: '18:00' }
const longHours: Cover = { days: weekdays, from: '07:00', to: '22:00' }

/** Two therapists settle in and one client opens the invitation, to be asked for consent; a clinic with people is left as it is. */
export async function seedDemoClinic(app: App, store: Store, product: Product, clock: Clock): Promise<void> {
  const clinic = await store.read<Clinic>(clinicId)
  if (clinic !== null) return
  const plan = readPlan(readInputFile(planFile), planFile, product.content)
  const { therapist, second } = plan.contacts
  await open(app, 'therapist', { name: therapist.name, zone: plan.zone, cover: officeHours })
  if (second !== null) await open(app, 'second', { name: second.name, zone: plan.zone, cover: longHours })
  const { token } = await enrolPlan(plan, store, app.delivery, clock.now())
  await app.delivery.idle()
  await app.delivery.receive({ kind: 'join', id: freshId(), from: at('client-1'), token })
  await app.delivery.idle()
}

async function open(app: App, address: string, card: { name: string; zone: string; cover: Cover }): Promise<void> {
  const id = freshId()
  const told = { kind: 'opened', contact: at(address), card } as const
  await app.delivery.submit(documentIdFrom('desk', id), { id, kind: 'told', from: clinicId, told })
  await app.delivery.idle()
}

function at(address: string): Contact {
  return { channel: 'browser', address }
}

function freshId(): EventId {
  return brandAs<EventId>(`demo:${newSecret()}`)
}
