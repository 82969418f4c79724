import { createMemoryDisk } from '#src/stores/memory/memory-disk.ts'
import type { MemoryDisk } from '#src/stores/memory/memory-disk.ts'
import { createMemoryStore } from '#src/stores/memory/memory-store.ts'
import { describeStore } from '#tests/contracts/store-contract.ts'
import { makeSystemError } from '#tests/support/system-error.ts'

describeStore('memory', async () => {
  const plain = createMemoryDisk()
  let failure: Error | null = null
  const disk: MemoryDisk = {
    ...plain,
    async put(key, text) {
      const thrown = failure
      failure = null
      if (thrown !== null) throw thrown
      await plain.put(key, text)
    },
  }
  let store = createMemoryStore(disk)
  await store.open()

  async function openNext() {
    store = createMemoryStore(disk)
    await store.open()
    return store
  }

  return {
    store,
    async reopen() {
      await store.close()
      return openNext()
    },
    async crash() {
      disk.holder = null
      return openNext()
    },
    openSecond: openNext,
    isShared: false,
    failNextWrite(code) {
      failure = makeSystemError(code)
    },
    dispose: () => store.close(),
  }
})
