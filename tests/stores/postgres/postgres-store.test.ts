import { afterAll, beforeAll } from 'vitest'
import { createPostgresStore, type PostgresStore } from '#src/stores/postgres/postgres-store.ts'
import { describeStore } from '#tests/contracts/store-contract.ts'
import { startPostgres, type PostgresServer } from '#tests/support/postgres-server.ts'

const database = 'contract'
/** As the database itself tells that it has no space, or that its disk fails (SQLSTATE, PostgreSQL manual, appendix A). */
const states = { ENOSPC: '53100', EDQUOT: '53100', EIO: '58030' } as const

let server: PostgresServer

beforeAll(async () => {
  server = await startPostgres()
  await server.run(`CREATE DATABASE ${database}`)
  const store = createPostgresStore({ url: server.urlOf(database) })
  await store.open()
  await store.close()
  // A sequence keeps its value when a transaction is taken back, so that one write fails and the next does not.
  await server.run(
    `CREATE SEQUENCE failing;
     CREATE FUNCTION fail_once() RETURNS trigger LANGUAGE plpgsql AS $$
     DECLARE failed bigint;
     BEGIN
       SELECT last_value INTO failed FROM failing;
       IF failed > 1 THEN
         PERFORM setval('failing', 1);
         RAISE EXCEPTION 'failed as asked' USING ERRCODE = CASE failed WHEN 2 THEN '53100' ELSE '58030' END;
       END IF;
       RETURN NEW;
     END
     $$;
     CREATE TRIGGER fail_once BEFORE INSERT OR UPDATE ON nuchal.document FOR EACH ROW EXECUTE FUNCTION fail_once();`,
    [],
    database,
  )
})
afterAll(() => server.stop())

/** Emptied rather than made anew for each test, which costs less; as a replica, so that the record's guards stand aside. */
const empty = `SET session_replication_role = replica;
  TRUNCATE nuchal.document, nuchal.contact, nuchal.outbox, nuchal.sent, nuchal.entry, nuchal.process;
  DELETE FROM nuchal_jobs.job; SELECT setval('failing', 1);`

describeStore('PostgreSQL', async () => {
  await server.run(empty, [], database)
  const opened: PostgresStore[] = []

  async function openNext(): Promise<PostgresStore> {
    // Marks only by commits and at the close, so that a crash between two is a crash between two.
    const store = createPostgresStore({ url: server.urlOf(database), marksEveryMs: 3_600_000, size: 4 })
    opened.push(store)
    await store.open()
    return store
  }

  const store = await openNext()
  return {
    store,
    isShared: true,
    async reopen() {
      await opened.at(-1)?.close()
      return openNext()
    },
    async crash() {
      // Its connections are gone, and the others have not heard of it for long.
      await server.run(`SELECT pg_terminate_backend(pid) FROM pg_stat_activity WHERE datname = $1 AND application_name = 'nuchal'`, [database])
      await server.run(`UPDATE nuchal.process SET alive_until = now() - interval '1 minute'`, [], database)
      return openNext()
    },
    openSecond: openNext,
    failNextWrite: async (code) => void (await server.run(`SELECT setval('failing', $1)`, [states[code] === '53100' ? 2 : 3], database)),
    async dispose() {
      for (const one of opened) await one.close().catch(() => undefined)
    },
  }
})
