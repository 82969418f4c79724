// A client with a past, as the store keeps one: the document with all around it, and the closed volumes of its record.
import { documentMigrations } from '#src/chart/document-migrations.ts'
import type { Content } from '#src/content/content.ts'
import type { Entry } from '#src/domain/entry.ts'
import type { DocumentId, Instant } from '#src/domain/identifier.ts'
import type { Plan } from '#src/domain/plan.ts'
import { createHandler, type Product } from '#src/handler.ts'
import type { Envelope } from '#src/stores/envelope.ts'
import { createMemoryDisk } from '#src/stores/memory/memory-disk.ts'
import { createMemoryStore } from '#src/stores/memory/memory-store.ts'
import { playHistory, rehearsedChart, rehearsedContact, type Happened } from './history.ts'

export interface PastClient {
  /** The envelope as JSON, under the rehearsal's names. */
  readonly envelope: string
  readonly volumes: readonly (readonly Entry[])[]
  /** When the last thing happened. */
  readonly until: Instant
}

/** What the product makes of a past, everything that was owed sent. In memory: only what is measured needs a disk. */
export async function liveThrough(product: Product, history: readonly Happened[]): Promise<PastClient> {
  const disk = createMemoryDisk()
  const store = createMemoryStore(disk, documentMigrations)
  const handler = createHandler(product, { linkOf: (_channel, token) => token, onFailed: failLoudly })
  let sent = 0
  await store.open()
  for (const { event, at } of history) {
    const { owed } = await store.apply(rehearsedChart, event.id, (document) => {
      const result = handler.step(document, event, at, rehearsedChart)
      return result === null || 'kind' in result ? null : result
    })
    for (const { effect } of owed) {
      sent += 1
      await store.settle(rehearsedChart, effect.id, { kind: 'delivered', ref: effect.kind === 'send' ? `900000000:${sent}` : null })
    }
  }
  await store.close()
  const read = <T>(key: string): T => JSON.parse(disk.get(key) ?? 'null') as T
  const { volumes } = read<Envelope>(`documents/${rehearsedChart}`)
  const numbers = Array.from({ length: volumes }, (_, index) => index + 1)
  return {
    envelope: disk.get(`documents/${rehearsedChart}`) ?? '',
    volumes: numbers.map((number) => read(`volumes/${rehearsedChart}/${number}`)),
    until: history.at(-1)?.at ?? 0,
  }
}

/** The envelope under another client's names, all of one length; reached by Telegram. */
export function envelopeOf(past: PastClient, chart: DocumentId, chat: number): Envelope {
  const contact = `"channel":"telegram","address":"${chat}"`
  return JSON.parse(past.envelope.replaceAll(rehearsedChart, chart).replaceAll(rehearsedContact, contact)) as Envelope
}

/** Pasts are played once a run, whoever asks. */
export function createPasts(plan: Plan, product: Product): (weeks: number, events?: (history: readonly Happened[]) => number) => Promise<PastClient> {
  const histories = new Map<number, readonly Happened[]>()
  const pasts = new Map<string, Promise<PastClient>>()
  return (weeks, events = (history) => history.length) => {
    const history = histories.get(weeks) ?? playHistory(plan, product.content satisfies Content, weeks)
    histories.set(weeks, history)
    const count = events(history)
    const key = `${weeks} ${count}`
    const past = pasts.get(key) ?? liveThrough(product, history.slice(0, count))
    pasts.set(key, past)
    return past
  }
}

export type Pasts = ReturnType<typeof createPasts>

function failLoudly(document: string, errorName: string): never {
  throw new Error(`a step of ${document} threw ${errorName}`)
}
