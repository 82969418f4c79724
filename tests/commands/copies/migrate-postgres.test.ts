import { join } from 'node:path'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { documentMigrations } from '#src/chart/document-migrations.ts'
import { compareCopies } from '#src/commands/copies/compare-copies.ts'
import { presentPlace } from '#src/commands/copies/places.ts'
import { readConfig } from '#src/config.ts'
import { createPostgresPlace } from '#src/stores/postgres/postgres-place.ts'
import { createLowdbPlace } from '#src/stores/lowdb/lowdb-place.ts'
import { allOf } from '#tests/contracts/archive-contract.ts'
import { startPostgres, type PostgresServer } from '#tests/support/postgres-server.ts'
import { makeTemporaryFolder } from '#tests/support/temporary-folder.ts'
import { runHere } from '../run-here.ts'

let server: PostgresServer
beforeAll(async () => {
  server = await startPostgres()
})
afterAll(() => server.stop())

describe('migrate to a database', () => {
  it('brings everything there, compared document by document, and refuses to do it twice', async () => {
    const url = await server.makeDatabase()
    const environment = { DATA_DIR: join(await makeTemporaryFolder(), 'data'), TARGET_DATABASE_URL: url }
    await runHere(['enrol', 'content/plans/extension.yaml'], environment)
    const moved = await runHere(['migrate', '--to', 'postgres', '--json'], environment)
    const again = await runHere(['migrate', '--to', 'postgres'], environment)

    expect([moved.status, moved.complaints]).toEqual([0, []])
    expect(JSON.parse(moved.printed.join())).toMatchObject({ to: 'postgres', documents: 2, entries: 1 })
    expect([again.status, again.complaints]).toEqual([2, [expect.stringContaining('The database holds documents already')]])
    expect(await allOf(createPostgresPlace({ url, steps: documentMigrations }))).toEqual(await allOf(presentPlace(readConfig({ DATA_DIR: environment.DATA_DIR }))))
  })

  it('and back again ends with the same documents', async () => {
    const url = await server.makeDatabase()
    const base = await makeTemporaryFolder()
    const environment = { DATA_DIR: join(base, 'data'), TARGET_DATABASE_URL: url }
    await runHere(['enrol', 'content/plans/extension.yaml'], environment)
    await runHere(['migrate', '--to', 'postgres'], environment)
    const back = createLowdbPlace({ folder: join(base, 'back'), steps: documentMigrations })
    await createPostgresPlace({ url, steps: documentMigrations }).whileHeld((source) =>
      back.fill(async (target) => {
        for await (const copy of source.copyOut()) await target.copyIn(copy)
      }),
    )
    const compared = await compareCopies(presentPlace(readConfig({ DATA_DIR: environment.DATA_DIR })).copyOut(), back.copyOut())
    expect(compared).toMatchObject({ documents: 2, entries: 1 })
  })
})
