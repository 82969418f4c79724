import { describe, expect, it } from 'vitest'
import { documentFormat } from '#src/chart/document-format.ts'
import { documentMigrations } from '#src/chart/document-migrations.ts'
import type { Migration } from '#src/ports/migration.ts'
import type { StoredDocument } from '#src/ports/store.ts'
import { createLowdbStore } from '#src/stores/lowdb/lowdb-store.ts'
import { createMemoryDisk } from '#src/stores/memory/memory-disk.ts'
import { createMemoryStore } from '#src/stores/memory/memory-store.ts'
import { formatAfter, migrateDocument } from '#src/stores/migrations.ts'
import { countUp, documentId, eventId, makeCommit, makeTally } from '#tests/support/store-samples.ts'
import { makeTemporaryFolder } from '#tests/support/temporary-folder.ts'

const chart = documentId('chart-1')
const steps: readonly Migration[] = [
  { to: 2, migrate: ({ count, ...rest }) => ({ ...rest, total: count }) },
  { to: 3, migrate: (document) => ({ ...document, total: Number(document['total']) * 10, format: 99, id: 'x' }) },
]

describe('migrations', () => {
  it('of this program run without gaps from format 1 to the one that is written', () => {
    expect(formatAfter(documentMigrations)).toBe(documentFormat)
    expect(formatAfter(steps)).toBe(3)
  })

  it.each([[[3]], [[2, 4]], [[2, 2]], [[1]]])('with the numbers %j are refused', (numbers) => {
    const list = numbers.map((to) => ({ to, migrate: (document: object) => ({ ...document }) }))
    expect(() => formatAfter(list)).toThrow(/must lead to format/)
  })

  it('are applied from the document’s own format on, and never change its id', () => {
    const migrated = [
      migrateDocument({ ...makeTally(chart, 4) }, steps),
      migrateDocument({ kind: 'chart', id: chart, format: 2, total: 4 }, steps),
      migrateDocument({ kind: 'chart', id: chart, format: 3, total: 4 }, steps),
    ]

    expect(migrated).toEqual([40, 40, 4].map((total) => ({ kind: 'chart', id: chart, format: 3, total })))
  })
})

describe('a store of an earlier version', () => {
  async function makePair(name: 'lowdb' | 'memory') {
    const folder = await makeTemporaryFolder()
    const disk = createMemoryDisk()
    return (list: readonly Migration[]) =>
      ({ lowdb: createLowdbStore({ folder, steps: list }), memory: createMemoryStore(disk, list) })[name]
  }

  it.each(['lowdb', 'memory'] as const)('is read and written on in the new format (%s), and refused by the old', async (name) => {
    const open = await makePair(name)
    const old = open([])
    await old.open()
    await old.apply(chart, eventId('1'), countUp(chart))
    await old.close()
    const shown: (StoredDocument | null)[] = []
    const next = open(steps)
    await next.open()
    await next.apply(chart, eventId('2'), (document) => {
      shown.push(document)
      return makeCommit({ ...makeTally(chart, 2), format: 3 })
    })
    await next.close()

    expect(shown).toEqual([{ kind: 'chart', id: chart, format: 3, total: 10 }])
    await expect(open([]).open()).rejects.toMatchObject({ name: 'StoreError', code: 'newer' })
    const after = open(steps)
    await after.open()
    expect(await after.read(chart)).toEqual({ ...makeTally(chart, 2), format: 3 })
    await after.close()
  })
})
