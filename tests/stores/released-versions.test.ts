// Every document that a released version has stored, opened by the stores of this one.
import { cpSync, readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { newChart } from '#src/chart/chart.ts'
import { newClinic } from '#src/chart/clinic.ts'
import { newDesk } from '#src/chart/desk.ts'
import { documentFormat } from '#src/chart/document-format.ts'
import { documentMigrations } from '#src/chart/document-migrations.ts'
import { headOf, type AnyDocument } from '#src/chart/head.ts'
import type { Alert } from '#src/chart/alert.ts'
import type { Chart } from '#src/chart/chart.ts'
import type { Entry } from '#src/domain/entry.ts'
import type { DocumentId } from '#src/domain/identifier.ts'
import type { Store } from '#src/ports/store.ts'
import { createLowdbStore } from '#src/stores/lowdb/lowdb-store.ts'
import { createMemoryDisk } from '#src/stores/memory/memory-disk.ts'
import { createMemoryStore } from '#src/stores/memory/memory-store.ts'
import { migrateEffect } from '#src/stores/migrations.ts'
import { chartId, colleagues, JoinedClinic } from '#tests/support/joined-clinic.ts'
import { extensionPlan } from '#tests/support/sample-chain.ts'
import { envelopesOf, migrated } from '#tests/support/stored/open-stored.ts'
import { storedFixtures, storedVersions } from '#tests/support/stored/stored-folder.ts'
import { makeTemporaryFolder } from '#tests/support/temporary-folder.ts'

const fixtures = storedFixtures()
const envelopes = fixtures.flatMap(({ folder }) => envelopesOf(folder))
const documents = envelopes.map(migrated)

async function openLowdb(folder: string): Promise<Store> {
  const copy = await makeTemporaryFolder()
  cpSync(folder, copy, { recursive: true })
  return createLowdbStore({ folder: copy, steps: documentMigrations })
}

/** What the files hold, under the memory store's keys: it keeps no more of a volume than its entries. */
async function openMemory(folder: string): Promise<Store> {
  const disk = createMemoryDisk()
  for (const [key, value] of filesOf(folder)) {
    const kept = key.startsWith('volumes/') ? (value as { readonly entries: unknown }).entries : value
    await disk.put(key, JSON.stringify(kept))
  }
  return createMemoryStore(disk, documentMigrations)
}

function filesOf(folder: string): readonly (readonly [string, unknown])[] {
  return readdirSync(folder, { recursive: true, encoding: 'utf8' })
    .filter((name) => /^(documents|volumes)[\\/].*\.json$/.test(name))
    .map((name) => [name.replaceAll('\\', '/').replace(/\.json$/, ''), JSON.parse(readFileSync(join(folder, name), 'utf8'))] as const)
}

/** The whole record as it stands in the files. */
function recordIn(folder: string, id: DocumentId): readonly Entry[] {
  const volumes = filesOf(folder)
    .filter(([key]) => key.startsWith(`volumes/${id}/`))
    .toSorted(([a], [b]) => Number(a.split('/').at(-1)) - Number(b.split('/').at(-1)))
    .flatMap(([, volume]) => (volume as { readonly entries: readonly Entry[] }).entries)
  return [...volumes, ...(envelopesOf(folder).find((envelope) => envelope.id === id)?.entries ?? [])]
}

describe('the released versions', () => {
  it('that the changelog names have stored their documents here', () => {
    const released = [...readFileSync('CHANGELOG.md', 'utf8').matchAll(/^## (\d+\.\d+\.\d+)\b/gm)].map(([, version]) => version)
    expect(released.length).toBeGreaterThan(0)
    expect(storedVersions()).toEqual(released.toSorted())
  })

  it('have each stored a clinic, desks, and charts with and without a lock, with closed sessions, and with something owed', () => {
    const found = storedVersions().map((version) => {
      const own = fixtures.filter((fixture) => fixture.version === version).flatMap(({ folder }) => envelopesOf(folder))
      const charts = own.map(migrated).filter((document): document is Chart => document.kind === 'chart')
      const kinds = [...new Set(own.map(({ document }) => document.kind))].toSorted()
      return [kinds, charts.some(({ lock }) => lock !== null), charts.some(({ lock }) => lock === null), own.some(({ volumes }) => volumes > 10), own.some(({ owed }) => owed.length > 0)]
    })
    expect(found).toEqual(storedVersions().map(() => [['chart', 'clinic', 'desk'], true, true, true, true]))
  })
})

describe.each(fixtures)('the folder stored as $name', ({ folder }) => {
  it.each([['lowdb', openLowdb], ['memory', openMemory]] as const)('opens in %s with its documents brought on, and its record and debts whole', async (_name, open) => {
    const store = await open(folder)
    await store.open()
    for (const envelope of envelopesOf(folder)) {
      const id = envelope.document.id
      expect(await store.read(id)).toEqual(migrated(envelope))
      expect(await store.entries(id)).toEqual(recordIn(folder, id))
      expect((await store.owed(id)).map(({ effect }) => effect.id)).toEqual(envelope.owed.map(({ effect }) => effect.id))
    }
    await store.close()
  })
})

const beginnings: Readonly<Record<AnyDocument['kind'], object>> = {
  chart: newChart('chart-0' as DocumentId),
  desk: newDesk('desk-0' as DocumentId, 'en'),
  clinic: newClinic(),
}

/** Every name of a field in what a value holds of charts, sessions and alerts today. */
function keysOf(value: object): readonly string[] {
  return Object.keys(value).toSorted()
}

describe('a stored document, brought on', () => {
  it('has every field that a new one begins with, and none that a new one has not', () => {
    // `watch` is left out while there is nothing to watch.
    const lacking = documents.filter((document) => keysOf(document).join() !== keysOf(beginnings[document.kind]).join())
    expect(lacking.map(({ id }) => id)).toEqual([])
    expect(new Set(documents.map(({ format }) => format))).toEqual(new Set([documentFormat]))
  })

  it('is looked up as before: its head is what was stored', () => {
    const differing = envelopes.filter((envelope) => JSON.stringify(headOf(migrated(envelope))) !== JSON.stringify(sorted(envelope.head, headOf(migrated(envelope)))))
    expect(differing.map(({ id }) => id)).toEqual([])
  })

  it('comes out the same whenever it is brought on, and stays as it is afterwards', () => {
    expect(envelopes.map(migrated)).toEqual(documents)
    expect(documents.map((document) => migrated({ document } as never))).toEqual(documents)
  })

  it('has alerts with every field that a new alert has', () => {
    const alerts = documents.flatMap((document) => (document.kind === 'chart' ? document.alerts : []))
    // Which words were taken for the sign is left out where there is nothing to say.
    const blank: Record<Exclude<keyof Alert, 'matched'>, true> = {
      id: true, level: true, sign: true, title: true, words: true, raisedAt: true, isConfirmed: true, during: true, told: true, clientSaid: true,
      acknowledged: true, contacted: true, sendings: true, sentTo: true, unreached: true, hasReachedNobody: true,
    }
    expect(alerts.length).toBeGreaterThan(0)
    expect(new Set(alerts.map((alert) => keysOf(alert).join()))).toEqual(new Set([keysOf(blank).join()]))
  })
})

/** The fields of what a chart is made of, by its name; a thing that no chart holds has none. */
function shapesOf(charts: readonly Chart[]): Readonly<Record<string, readonly string[]>> {
  const parts: Readonly<Record<string, (chart: Chart) => readonly (object | null | undefined)[]>> = {
    session: ({ session }) => [session],
    prescribed: ({ session }) => session?.prescribed ?? [],
    set: ({ session }) => session?.sets ?? [],
    underWay: ({ session }) => [session?.underWay],
    asked: ({ session }) => [session?.asked],
    pending: ({ pending }) => [pending],
    ladder: ({ pending }) => pending?.ladders ?? [],
    outcome: ({ pending }) => pending?.ladders.flatMap(({ sets }) => sets) ?? [],
    state: ({ states }) => Object.values(states),
    outcomes: ({ outcomes }) => [outcomes],
    training: ({ training }) => [training],
    line: ({ history }) => history,
    decided: ({ lastDecisions }) => lastDecisions,
    request: ({ requests }) => requests,
    approval: ({ approvals }) => approvals,
    timer: ({ timers }) => timers,
    conversation: ({ conversations }) => conversations,
    prompt: ({ prompt }) => [prompt],
    lock: ({ lock }) => [lock],
    alert: ({ alerts }) => alerts.map(({ matched: _, ...alert }) => alert),
  }
  const keys = (of: (chart: Chart) => readonly (object | null | undefined)[]): string[] =>
    charts.flatMap(of).flatMap((part) => (part ? [keysOf(part).join()] : []))
  return Object.fromEntries(Object.entries(parts).map(([name, of]) => [name, [...new Set(keys(of))].toSorted()]))
}

/** Charts of today in the course of some weeks, so that each part of one is seen. */
function chartsOfToday(): readonly Chart[] {
  const seen: Chart[] = []
  const clinic = new JoinedClinic({ plan: { ...extensionPlan, ladders: extensionPlan.ladders.map((own) => ({ ...own, shown: [] })) } })
  for (let day = 5; day < 27; day += 1) {
    clinic.rig.moveTo(new Date(Date.UTC(2026, 0, day, 18)).toISOString())
    if (clinic.asks !== 'session.ready') continue
    seen.push(clinic.begin().chart())
    clinic.client.press('Done').write('1')
    seen.push(clinic.chart())
    clinic.client.press('No').write('3')
    seen.push(clinic.chart())
    while (String(clinic.asks) === 'session.set') clinic.doSet()
    seen.push(clinic.chart())
    for (const { id } of clinic.chart().requests) clinic.rig.submit(chartId, { kind: 'act', by: { desk: colleagues.maren.desk, name: 'Maren Holt' }, act: 'permit', about: id, seenRevision: 0 })
    seen.push(clinic.chart())
  }
  clinic.client.write('half my face is drooping')
  return [...seen, clinic.chart()]
}

describe('what a stored chart is made of, brought on', () => {
  it('has the fields that the same has today', () => {
    const [then, now] = [shapesOf(documents.filter((document): document is Chart => document.kind === 'chart')), shapesOf(chartsOfToday())]
    const seen = Object.keys(now).filter((name) => then[name]?.length !== 0 && now[name]?.length !== 0)
    expect(Object.fromEntries(seen.map((name) => [name, then[name]]))).toEqual(Object.fromEntries(seen.map((name) => [name, now[name]])))
    expect(seen.length).toBeGreaterThan(16)
  })
})

/** In the order of fields of another. */
function sorted(value: unknown, like: object): unknown {
  return Object.fromEntries(Object.keys(like).map((key) => [key, (value as Record<string, unknown>)[key]]))
}

describe('a tell that was owed by format 1', () => {
  it.each([
    ['desk-1', ['desk-1']],
    [null, null],
  ])('to everybody but %j leaves the same out', (except, expected) => {
    const told = (desk: unknown): never => ({ kind: 'tell', id: 'e', to: 'clinic', told: { kind: 'show-all', except: desk, shown: {} } }) as never
    expect(migrateEffect(told(except), 1, documentMigrations)).toEqual(told(expected))
    expect(migrateEffect(told(expected), documentFormat, documentMigrations)).toEqual(told(expected))
  })
})
