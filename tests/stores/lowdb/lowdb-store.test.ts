import { mkdtemp, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { plain, type Cipher } from '#src/stores/cipher.ts'
import { createLowdbStore } from '#src/stores/lowdb/lowdb-store.ts'
import { describeStore, type StoreUnderTest } from '#tests/contracts/store-contract.ts'
import { makeCipher } from '#tests/support/data-keys.ts'
import { watchFiles } from '#tests/support/watched-files.ts'

async function makeRig(cipher: Cipher): Promise<StoreUnderTest> {
  const folder = await mkdtemp(join(tmpdir(), 'nuchal-'))
  const files = watchFiles(folder)
  let store = createLowdbStore({ folder, files, cipher })
  await store.open()

  async function openNext(isAlive: () => boolean) {
    store = createLowdbStore({ folder, files, isAlive, cipher })
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
}

describeStore('lowdb', () => makeRig(plain))
describeStore('encrypted lowdb', () => makeRig(makeCipher(1)))
