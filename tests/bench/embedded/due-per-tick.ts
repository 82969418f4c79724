// What a tick of the timers costs, by how many clients a clinic has.
import type { DocumentId, Instant } from '#src/domain/identifier.ts'
import type { Head, Store } from '#src/ports/store.ts'
import { envelopeFormat, type Envelope } from '#src/stores/envelope.ts'
import type { Shelf } from '#src/stores/shelf.ts'
import { ShelvedStore } from '#src/stores/shelved-store.ts'
import { atMost, medianOf, type Figure } from '../figure.ts'
import { chartOf, chatOf } from './history.ts'

/** Issue 5, "Speed and memory". */
const mostGrowth = 2
const [manyClients, fewClients, dueClients] = [100_000, 1000, 10]
const batch = 200
const rounds = 200
const now: Instant = Date.UTC(2027, 2, 1, 18)

export async function measureDuePerTick(): Promise<readonly Figure[]> {
  const [many, few] = [await openClinic(manyClients), await openClinic(fewClients)]
  const ratios: number[] = []
  for (let round = 0; round < rounds; round += 1) ratios.push((await timeTicks(many)) / (await timeTicks(few)))
  return [atMost(`finding ${dueClients} due among ${manyClients} clients, in the same among ${fewClients}`, medianOf(ratios.slice(rounds / 5)), mostGrowth)]
}

async function timeTicks(store: Store): Promise<number> {
  const start = process.hrtime.bigint()
  for (let tick = 0; tick < batch; tick += 1) {
    const earliest = await store.nextDueAt()
    const due = earliest === null || earliest > now ? [] : await store.due(now)
    if (due.length !== dueClients) throw new Error(`${due.length} are due`)
  }
  return Number(process.hrtime.bigint() - start)
}

async function openClinic(clients: number): Promise<Store> {
  const store = new ShelvedStore(shelfOf(clients), 1)
  await store.open()
  return store
}

/** Only what the store looks at when it opens. */
function shelfOf(clients: number): Shelf {
  const notAsked = (): never => {
    throw new Error('a tick reads heads only')
  }
  return {
    async open(visit) {
      for (let number = 0; number < clients; number += 1) visit(envelopeAt(number))
    },
    close: async () => {},
    read: notAsked,
    write: notAsked,
    readVolume: notAsked,
    writeVolume: notAsked,
    erase: notAsked,
  }
}

function envelopeAt(number: number): Envelope {
  const id: DocumentId = chartOf(number)
  // Those due are spread over the clinic; the others fall due within the next week.
  const isDue = number % 97 === 0 && number / 97 < dueClients
  const nextDueAt = isDue ? now - number : now + 1 + ((number * 7919) % (7 * 86_400_000))
  const contacts = [{ channel: 'telegram', address: String(chatOf(number)) }]
  const head: Head = { id, kind: 'chart', name: 'a client', contacts, nextDueAt, openAlerts: 0, isLocked: false, approvalsWaiting: 0, lastSessionAt: null }
  return { format: envelopeFormat, kind: 'chart', id, document: { kind: 'chart', id, format: 1 }, head, seen: [], owed: [], refs: [], entries: [], volumes: 0 }
}
