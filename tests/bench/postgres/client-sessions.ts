// What a bench's client does on PostgreSQL: a session that goes well, an answer after the other.
import { headOf } from '#src/chart/head.ts'
import type { Chart } from '#src/chart/chart.ts'
import { documentMigrations } from '#src/chart/document-migrations.ts'
import type { Step } from '#src/chart/step.ts'
import { brandAs, type DocumentId } from '#src/domain/identifier.ts'
import type { Commit } from '#src/ports/store.ts'
import { createPostgresStore, type PostgresStore } from '#src/stores/postgres/postgres-store.ts'
import type { Press } from '../answer-cost.ts'

/** Of one process. */
export const connections = 10

/** In the session's own time: what is due in it is not long past. */
export function openSessionStore(url: string, presses: readonly Press[]): PostgresStore {
  return createPostgresStore({ url, size: connections, steps: documentMigrations, now: () => presses[0]?.at ?? 0 })
}

export function idOf(round: number, client: number): DocumentId {
  return brandAs<DocumentId>(`chart-${(round * 1000 + client).toString(16).padStart(12, '0')}`)
}

export async function enrol(store: PostgresStore, [first]: readonly Press[], id: DocumentId): Promise<void> {
  if (first === undefined) throw new RangeError('the session has no questions')
  const document = { ...first.chart, id }
  await store.copyIn({ document, head: headOf(document), seen: [], owed: [], refs: [], entries: [] })
}

/** What is owed is marked as sent, as the delivery does. */
export async function answerAll(store: PostgresStore, step: Step, presses: readonly Press[], id: DocumentId): Promise<void> {
  for (const { event, at } of presses) {
    const { owed } = await store.apply<Chart>(id, event.id, (chart) => commitOf(step, chart ?? missing(id), event, at))
    for (const { effect } of owed) await store.settle(id, effect.id, { kind: 'delivered', ref: '1:1' })
  }
}

export function commitOf(step: Step, chart: Chart, event: Press['event'], at: number): Commit<Chart> {
  const result = step(chart, event, at)
  const document = result.document as Chart
  return { ...result, document, head: headOf(document) }
}

function missing(id: DocumentId): never {
  throw new RangeError(`${id} is not enrolled`)
}
