// A therapist has left: their desk is closed, and a colleague takes over their clients with everything that is open.
import { createApp, createProduct, newSecret, openStore, systemClock } from '#src/app.ts'
import { clinicId, newClinic, type Clinic } from '#src/chart/clinic.ts'
import { hasLeft } from '#src/chart/clinic/close-desk.ts'
import type { Desk } from '#src/chart/desk.ts'
import type { Event } from '#src/chart/event.ts'
import { readConfig } from '#src/config.ts'
import type { Delivery } from '#src/delivery/delivery.ts'
import { brandAs, type DocumentId, type EventId } from '#src/domain/identifier.ts'
import { createLog } from '#src/log.ts'
import type { Store } from '#src/ports/store.ts'
import { InputError } from './input-error.ts'
import type { Surface } from './surface.ts'

export interface CloseDeskOptions {
  /** Name or id of the colleague who takes over. */
  readonly handOverTo: string
  readonly because: string
  readonly json?: true
}

interface Place {
  readonly id: DocumentId
  readonly name: string
}

export interface Closed {
  readonly desk: Place
  readonly successor: Place
  /** How many clients have another therapist now. */
  readonly clients: number
}

export async function closeDesk(therapist: string, options: CloseDeskOptions, { environment, print }: Surface): Promise<void> {
  const config = readConfig(environment)
  const product = createProduct(config.telegram === null ? 'demo' : { dataDir: config.dataDir }, config.clinicLanguage)
  const store = openStore(config)
  await store.open()
  try {
    const { delivery } = createApp({ product, store, channels: null, clock: systemClock, log: createLog(config.logLevel) })
    await delivery.start()
    const { desk, successor, clients } = await closeIn(store, delivery, therapist, options).finally(() => delivery.stop())
    if (options.json) return print(JSON.stringify({ closed: desk.id, to: successor.id, clients }))
    print(`The desk of ${desk.name} is closed. ${successor.name} takes over ${clients === 1 ? '1 client' : `${clients} clients`}, with every alert that is open.`)
    print('Whoever takes over reads of it once Nuchal runs. Invitations for colleagues that nobody had used are void; hand out new ones.')
  } finally {
    await store.close()
  }
}

async function closeIn(store: Store, delivery: Delivery<Event>, therapist: string, { handOverTo, because }: CloseDeskOptions): Promise<Closed> {
  const reason = because.trim()
  if (reason === '') throw new InputError('--because needs a REASON: one sentence for the record.')
  const clinic = (await store.read<Clinic>(clinicId)) ?? newClinic()
  const desks = (await store.heads('desk')).filter(({ id }) => !hasLeft(clinic, id))
  const desk = findDesk(therapist, desks)
  const others = clinic.therapists.map((card) => ({ id: card.desk, name: card.name })).filter(({ id }) => id !== desk.id)
  if (others.length === 0) throw new InputError(`${desk.name} is the only therapist of this clinic: nobody would read an alert. Invite a colleague first ("invite" at the desk).`)
  if (findDesk(handOverTo, desks).id === desk.id) throw new InputError('--hand-over-to must be a colleague, not the therapist whose desk is closed.')
  const successor = findDesk(handOverTo, others)
  if (!(await isReached(store, successor))) {
    const { name } = successor
    throw new InputError(`${name} cannot be reached on their network, so that alerts would reach nobody. Name another colleague, or let ${name} write to Nuchal first.`)
  }
  const clients = (await store.read<Desk>(desk.id))?.clients.length ?? 0
  await delivery.submit(clinicId, { id: brandAs<EventId>(`close-desk:${newSecret()}`), kind: 'close-desk', desk: desk.id, to: successor.id, reason })
  await delivery.idle()
  // Another process may have changed who works here meanwhile.
  if (!hasLeft((await store.read<Clinic>(clinicId)) ?? newClinic(), desk.id)) throw new InputError('Nothing was closed: the clinic has changed meanwhile. Try again.')
  return { desk, successor, clients }
}

async function isReached(store: Store, { id }: Place): Promise<boolean> {
  const desk = await store.read<Desk>(id)
  return desk !== null && desk.contact !== null && desk.isReachable
}

function findDesk(who: string, desks: readonly Place[]): Place {
  const found = desks.filter(({ id, name }) => id === who || name === who)
  const [only, ...others] = found
  if (desks.length === 0) throw new InputError('This clinic has no therapist yet. Set DATA_DIR or DATABASE_URL to the clinic that is meant.')
  const names = desks.map(({ id, name }) => (name === '' ? id : name)).join(', ')
  if (only === undefined) throw new InputError(`No therapist of this clinic is called ${who}. Write one of: ${names}.`)
  if (others.length > 0) throw new InputError(`${found.length} therapists are called ${who}. Write the id instead: ${found.map(({ id }) => id).join(', ')}.`)
  return { id: only.id, name: only.name === '' ? only.id : only.name }
}
