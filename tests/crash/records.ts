// What a store holds of a clinic, beside the process and when nobody runs it any more.
import { openStore } from '#src/app.ts'
import { documentMigrations } from '#src/chart/document-migrations.ts'
import type { Chart } from '#src/chart/chart.ts'
import { readConfig } from '#src/config.ts'
import type { Entry } from '#src/domain/entry.ts'
import type { Instant } from '#src/domain/identifier.ts'
import { plain } from '#src/stores/cipher.ts'
import { readEnvelopes } from '#src/stores/lowdb/read-envelopes.ts'
import { readDocuments } from '#src/stores/postgres/read-documents.ts'
import type { Head, StoredDocument } from '#src/ports/store.ts'
import type { Environment } from '#tests/support/prepared-clinic.ts'

export interface ClientRecord {
  readonly chart: Chart
  readonly entries: readonly Entry[]
  /** Effects still to be carried out. */
  readonly owed: number
}

export async function readRecords(environment: Environment): Promise<ReadonlyMap<string, ClientRecord>> {
  const store = openStore(readConfig(environment))
  await store.open()
  try {
    const records = new Map<string, ClientRecord>()
    for (const head of await store.heads('chart')) {
      const chart = await store.read<Chart>(head.id)
      if (chart?.plan == null) continue
      records.set(chart.plan.client.name, { chart, entries: await store.entries(head.id), owed: (await store.owed(head.id)).length })
    }
    return records
  } finally {
    await store.close()
  }
}

export interface Glimpse {
  readonly charts: readonly Chart[]
  readonly nextDueAt: Instant | null
  /** Effects that the store does not know to have been carried out. */
  readonly owed: number
}

/** As it stands beside a process that has it; null where it cannot be looked at just now. */
export async function glimpse(environment: Environment): Promise<Glimpse | null> {
  try {
    const url = environment['DATABASE_URL']
    return url === undefined ? await glimpseFolder(environment['DATA_DIR'] ?? '') : await glimpseDatabase(url)
  } catch {
    return null
  }
}

async function glimpseFolder(folder: string): Promise<Glimpse> {
  const envelopes = (await readEnvelopes(folder, documentMigrations, plain)) ?? []
  return glimpseOf(envelopes)
}

async function glimpseDatabase(url: string): Promise<Glimpse> {
  const documents = (await readDocuments(url, documentMigrations, plain)) ?? []
  return glimpseOf(documents)
}

function glimpseOf(documents: readonly { readonly document: StoredDocument; readonly head: Head; readonly owed: readonly unknown[] }[]): Glimpse {
  const due = documents.flatMap(({ head }) => head.nextDueAt ?? [])
  return {
    charts: documents.flatMap(({ document }) => (document.kind === 'chart' ? [document as Chart] : [])),
    nextDueAt: due.length === 0 ? null : Math.min(...due),
    owed: documents.reduce((sum, { owed }) => sum + owed.length, 0),
  }
}

/** What was decided and prescribed, without what names the event that it came with. */
export function decided({ entries, chart }: ClientRecord): readonly string[] {
  const lines = entries.filter(({ kind }) => compared.has(kind)).map(({ kind, by, data }) => `${kind} by ${by}: ${JSON.stringify(withoutIds(data))}`)
  const { states, lock, history, lastDecisions, standing, lastSessionOn } = chart
  return [...lines, `now: ${JSON.stringify(withoutIds({ states, lock: lock?.level ?? null, history, lastDecisions, standing, lastSessionOn }))}`]
}

const compared: ReadonlySet<string> = new Set([
  'consent', 'prescription', 'set', 'decision', 'session-closed', 'pain-now', 'morning', 'worst-since', 'weekly', 'activities', 'global-change',
  'words', 'message', 'lock', 'cleared', 'request', 'permitted', 'absence', 'not-today', 'reminder-skipped',
])

/** Names of events and the instants of acts differ from run to run. */
const named: ReadonlySet<string> = new Set(['session', 'id', 'at', 'recent', 'minutes', 'dueAt', 'occasion'])

function withoutIds(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(withoutIds)
  if (typeof value !== 'object' || value === null) return value
  return Object.fromEntries(Object.entries(value).flatMap(([key, inner]) => (named.has(key) ? [] : [[key, withoutIds(inner)]])))
}
