import { mkdtemp, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { createLowdbStore } from '#src/stores/lowdb/lowdb-store.ts'
import { describeStore } from '#tests/contracts/store-contract.ts'
import { watchFiles } from '#tests/support/watched-files.ts'

describeStore('lowdb', async () => {
  const folder = await mkdtemp(join(tmpdir(), 'nuchal-'))
  const files = watchFiles(folder)
  let store = createLowdbStore({ folder, files })
  await store.open()

  async function openNext(isAlive: () => boolean) {
    store = createLowdbStore({ folder, files, isAlive })
    await store.open()
    return store
  }

  return {
    store,
    async reopen() {
      await store.close()
      return openNext(() => true)
    },
    // The crashed holder is this very process, so only the answer about its life can be changed.
    crash: () => openNext(() => false),
    openSecond: () => openNext(() => true),
    isShared: false,
    failNextWrite(code) {
      files.failNext('write ', code)
    },
    async dispose() {
      await store.close()
      await rm(folder, { recursive: true })
    },
  }
})
