import { mkdtemp, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import type { DocumentCopy } from '#src/ports/archive.ts'
import { plain, type Cipher } from '#src/stores/cipher.ts'
import { copyFolderOut } from '#src/stores/lowdb/copy-folder-out.ts'
import { nodeFileSystem } from '#src/stores/lowdb/file-system.ts'
import { createLowdbStore } from '#src/stores/lowdb/lowdb-store.ts'
import { copyMemoryOut } from '#src/stores/memory/copy-memory-out.ts'
import { createMemoryDisk } from '#src/stores/memory/memory-disk.ts'
import { createMemoryStore } from '#src/stores/memory/memory-store.ts'
import { describeArchive, type ArchiveUnderTest } from '#tests/contracts/archive-contract.ts'
import { makeCipher } from '#tests/support/data-keys.ts'

async function inMemory(): Promise<ArchiveUnderTest> {
  const disk = createMemoryDisk()
  return under(() => createMemoryStore(disk), () => copyMemoryOut(disk, []), inMemory, async () => {})
}

const inFolder = (cipher: Cipher) => async (): Promise<ArchiveUnderTest> => {
  const folder = await mkdtemp(join(tmpdir(), 'nuchal-'))
  const copyOut = () => copyFolderOut({ folder, files: nodeFileSystem, steps: [], cipher })
  return under(() => createLowdbStore({ folder, cipher }), copyOut, inFolder(cipher), () => rm(folder, { recursive: true }))
}

async function under(
  makeStore: () => ReturnType<typeof createLowdbStore>,
  copyOut: () => AsyncIterable<DocumentCopy>,
  makeAnother: () => Promise<ArchiveUnderTest>,
  remove: () => Promise<void>,
): Promise<ArchiveUnderTest> {
  const others: ArchiveUnderTest[] = []
  let store = makeStore()
  await store.open()
  return {
    store,
    archive: { copyOut, copyIn: (copy) => store.copyIn(copy) },
    async another() {
      const other = await makeAnother()
      others.push(other)
      return other
    },
    async reopen() {
      await store.close()
      store = makeStore()
      await store.open()
      return store
    },
    async dispose() {
      await store.close()
      await remove()
      for (const other of others) await other.dispose()
    },
  }
}

describeArchive('memory', inMemory)
describeArchive('lowdb', inFolder(plain))
describeArchive('encrypted lowdb', inFolder(makeCipher(1)))
