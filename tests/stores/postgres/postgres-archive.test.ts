import { afterAll, beforeAll } from 'vitest'
import { plain, type Cipher } from '#src/stores/cipher.ts'
import { createPostgresPlace } from '#src/stores/postgres/postgres-place.ts'
import { createPostgresStore } from '#src/stores/postgres/postgres-store.ts'
import { describeArchive, type ArchiveUnderTest } from '#tests/contracts/archive-contract.ts'
import { describeCopyPlace } from '#tests/contracts/copy-place-contract.ts'
import { makeCipher } from '#tests/support/data-keys.ts'
import { startPostgres, type PostgresServer } from '#tests/support/postgres-server.ts'

let server: PostgresServer
beforeAll(async () => {
  server = await startPostgres()
})
afterAll(() => server.stop())

const inDatabase = (cipher: Cipher) => async (): Promise<ArchiveUnderTest> => {
  const url = await server.makeDatabase()
  const others: ArchiveUnderTest[] = []
  const make = () => createPostgresStore({ url, cipher, size: 3 })
  let store = make()
  await store.open()
  return {
    store,
    archive: { copyOut: () => store.copyOut(), copyIn: (copy) => store.copyIn(copy) },
    async another() {
      const other = await inDatabase(cipher)()
      others.push(other)
      return other
    },
    async reopen() {
      await store.close()
      store = make()
      await store.open()
      return store
    },
    async dispose() {
      await store.close()
      for (const other of others) await other.dispose()
    },
  }
}

describeArchive('PostgreSQL', inDatabase(plain))
describeArchive('encrypted PostgreSQL', inDatabase(makeCipher(1)))

describeCopyPlace('PostgreSQL', async () => {
  const url = await server.makeDatabase()
  return {
    place: createPostgresPlace({ url, size: 3 }),
    openStore: async () => {
      const store = createPostgresStore({ url, size: 3 })
      await store.open()
      return store
    },
  }
})
