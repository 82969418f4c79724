// A clinic of invented people, set up through the same messages that real ones would send.
import { clinicId } from '#src/chart/clinic.ts'
import { digestOf } from '#src/chart/digest.ts'
import { invitationLastsMs } from '#src/chart/desk/enrol-client.ts'
import { contentFolder, issueClaim, newSecret, type App, type Product } from '#src/app.ts'
import { readPlan } from '#src/content/read-plan.ts'
import { brandAs, type EventId } from '#src/domain/identifier.ts'
import type { Contact } from '#src/domain/message.ts'
import type { Clock } from '#src/ports/clock.ts'
import type { Inbound } from '#src/ports/channel.ts'
import type { Store } from '#src/ports/store.ts'
import { readInputFile } from '../read-input-file.ts'
import { enrolPlan } from '../enrol-plan.ts'

export const demoAddresses = { client: 'client-1', therapist: 'therapist', second: 'second' } as const

const planFile = `${contentFolder}/plans/extension.yaml`

function at(address: string): Contact {
  return { channel: 'browser', address }
}

/** Settles both therapists in and invites the client, who is then asked for consent; does nothing to a clinic that has somebody. */
export async function seedDemoClinic(app: App, store: Store, product: Product, clock: Clock): Promise<void> {
  const code = await issueClaim(store, app.delivery)
  if (code === null) return
  const plan = readPlan(readInputFile(planFile), planFile, product.content)
  const { therapist, second } = plan.contacts
  await write(app, demoAddresses.therapist, [code, therapist.name, plan.zone, 'mon-fri', '08:00-18:00'])
  if (second !== null) {
    await join(app, demoAddresses.second, await inviteColleague(app, clock))
    await write(app, demoAddresses.second, [second.name, plan.zone, 'mon-sun', '07:00-22:00'])
  }
  const { token } = await enrolPlan(plan, store, app.delivery, clock.now())
  await app.delivery.idle()
  await join(app, demoAddresses.client, token)
}

async function take(app: App, inbound: Inbound): Promise<void> {
  await app.delivery.receive(inbound)
  await app.delivery.idle()
}

function inboundId(): EventId {
  return brandAs<EventId>(`demo:${newSecret()}`)
}

async function write(app: App, address: string, texts: readonly string[]): Promise<void> {
  for (const text of texts) await take(app, { kind: 'message', id: inboundId(), from: at(address), text })
}

async function join(app: App, address: string, token: string): Promise<void> {
  await take(app, { kind: 'join', id: inboundId(), from: at(address), token })
}

/** The colleague's invitation is given to the clinic directly, since nobody is there yet to pass a link on. */
async function inviteColleague(app: App, clock: Clock): Promise<string> {
  const token = newSecret()
  const told = { kind: 'invited', digest: digestOf(token), chart: null, expiresAt: clock.now() + invitationLastsMs } as const
  await app.delivery.submit(clinicId, { id: inboundId(), kind: 'told', from: clinicId, told })
  return token
}
