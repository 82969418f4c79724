import { afterAll, afterEach, beforeAll, beforeEach } from 'vitest'
import { createPostgresStore, type PostgresOptions, type PostgresStore } from '#src/stores/postgres/postgres-store.ts'
import { startPostgres, type PostgresServer } from './postgres-server.ts'

/** A server for a test file, and an empty database for each test, with as many stores on it as a test opens. */
export interface SharedDatabase {
  readonly server: PostgresServer
  readonly url: string
  readonly name: string
  /** Another process, as it were; closed after the test. */
  open(options?: Partial<PostgresOptions>): Promise<PostgresStore>
  /** As the database's owner. */
  sql(text: string, values?: readonly unknown[]): ReturnType<PostgresServer['run']>
}

export function shareDatabase(defaults: Partial<PostgresOptions>): SharedDatabase {
  const state: { server: PostgresServer | null; url: string; stores: PostgresStore[] } = { server: null, url: '', stores: [] }
  const standing = (): PostgresServer => {
    if (state.server === null) throw new Error('the server stands while tests run')
    return state.server
  }
  const nameOf = (url: string): string => new URL(url).pathname.slice(1)

  beforeAll(async () => {
    state.server = await startPostgres()
  })
  afterAll(() => standing().stop())
  beforeEach(async () => {
    state.url = await standing().makeDatabase()
    state.stores = []
  })
  afterEach(async () => {
    for (const store of state.stores) await store.close().catch(() => undefined)
  })

  return {
    get server() {
      return standing()
    },
    get url() {
      return state.url
    },
    get name() {
      return nameOf(state.url)
    },
    async open(options = {}) {
      const store = createPostgresStore({ url: state.url, size: 4, ...defaults, ...options })
      state.stores.push(store)
      await store.open()
      return store
    },
    sql: (text, values = []) => standing().run(text, values, nameOf(state.url)),
  }
}

/** Polls what another process or the database does by itself. */
export async function until(isSo: () => boolean | Promise<boolean>, limitMs = 10_000): Promise<void> {
  const end = performance.now() + limitMs
  while (!(await isSo())) {
    if (performance.now() > end) throw new Error('it did not come about')
    await new Promise((resolve) => setTimeout(resolve, 20))
  }
}
