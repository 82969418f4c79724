import { StoreError } from '#src/ports/store.ts'
import type { Connections } from './connections.ts'
import { first } from './migrations/0001-first.ts'
import type { SchemaMigration } from './schema-migration.ts'

/** By hand and without gaps, so that what was released can be read off here. */
export const schemaMigrations: readonly SchemaMigration[] = [first]

/** Any number that nobody else of the database takes: two processes that start at once make the schema one after the other. */
const advisoryLock = 4_870_001

/** Brings the schema to the newest, all or nothing. Rejects with `newer` where a later version has been here. */
export async function prepareSchema(connections: Connections, migrations = schemaMigrations): Promise<void> {
  // Whoever only works here needs no right to change the schema.
  if ((await readNewest(connections)) === migrations.length) return
  await connections.transaction(async (run) => {
    await run('SELECT pg_advisory_xact_lock($1)', [advisoryLock])
    await run('CREATE SCHEMA IF NOT EXISTS nuchal')
    await run(
      `CREATE TABLE IF NOT EXISTS nuchal.migration
         (number integer PRIMARY KEY, name text NOT NULL, at timestamptz NOT NULL DEFAULT now())`,
    )
    const [found] = await run<{ newest: number }>('SELECT coalesce(max(number), 0)::int AS newest FROM nuchal.migration')
    const newest = found?.newest ?? 0
    if (newest > migrations.length) throw describeNewer(newest)
    for (const { number, name, sql } of migrations.slice(newest)) {
      await run(sql)
      await run('INSERT INTO nuchal.migration (number, name) VALUES ($1, $2)', [number, name])
    }
  })
}

/** Whether the newest schema stands; rejects with `newer` where a later one does. */
export async function isPrepared(connections: Connections): Promise<boolean> {
  const newest = await readNewest(connections)
  if (newest > schemaMigrations.length) throw describeNewer(newest)
  return newest === schemaMigrations.length
}

async function readNewest({ run }: Connections): Promise<number> {
  const [table] = await run<{ stands: boolean }>(`SELECT to_regclass('nuchal.migration') IS NOT NULL AS stands`)
  if (table?.stands !== true) return 0
  const [found] = await run<{ newest: number }>('SELECT coalesce(max(number), 0)::int AS newest FROM nuchal.migration')
  return found?.newest ?? 0
}

export function describeNewer(newest: number): StoreError {
  return new StoreError(
    'newer',
    `The database was written by a newer version of this program (format ${newest}). Install that version or a later one; nothing was changed.`,
  )
}
