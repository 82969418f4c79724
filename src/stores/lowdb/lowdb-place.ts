import type { Archive } from '#src/ports/archive.ts'
import type { CopyPlace } from '#src/ports/copy-place.ts'
import { StoreError } from '#src/ports/store.ts'
import { plain } from '../cipher.ts'
import { formatAfter, noMigrations } from '../migrations.ts'
import { ShelvedStore } from '../shelved-store.ts'
import { copyFolderOut, requireDocuments, type CopyFolderOptions } from './copy-folder-out.ts'
import { nodeFileSystem } from './file-system.ts'
import { isFilling, markFilling, unmarkFilling } from './filling-mark.ts'
import { listDocuments, listVolumeOwners } from './folder-content.ts'
import { FolderShelf } from './folder-shelf.ts'
import { lockFolder } from './folder-lock.ts'
import { requireOneKey } from './key-change.ts'
import type { LowdbOptions } from './lowdb-store.ts'
import { shareFolderSyncs } from './share-folder-syncs.ts'

/** What the embedded store is for the copying of a whole clinic. */
export function createLowdbPlace(options: LowdbOptions & Pick<CopyFolderOptions, 'spoolFolder' | 'looks' | 'identify'>): CopyPlace {
  const { folder, files = nodeFileSystem, steps = noMigrations, cipher = plain, isAlive, ...copying } = options
  const content = { folder, files, steps, cipher }
  const lock = () => lockFolder({ files, folder, ...(isAlive === undefined ? {} : { isAlive }) })
  const shelfWith = (prepare?: (shelf: FolderShelf) => Promise<void>): FolderShelf =>
    new FolderShelf({ ...content, files: shareFolderSyncs(files), lock, ...(prepare === undefined ? {} : { prepare }) })

  async function* copyOut(isBeingFilled = false): ReturnType<typeof copyFolderOut> {
    await requireOneKey(files, folder)
    if (!isBeingFilled) await requireDocuments(content)
    yield* copyFolderOut({ ...content, ...copying, isBeingFilled })
  }

  /** Only an empty folder is filled; what an earlier filling has left in part is cleared away first. */
  async function clearLeavings(shelf: FolderShelf): Promise<void> {
    if (await isFilling(files, folder)) return clear(shelf)
    if ((await listDocuments(content)).length > 0) throw describeOccupied(folder)
    await markFilling(files, folder)
  }

  async function clear(shelf: FolderShelf): Promise<void> {
    const documents = (await listDocuments(content)).map(({ id }) => id)
    for (const id of new Set([...documents, ...(await listVolumeOwners(content))])) await shelf.erase(id)
  }

  return {
    copyOut: () => copyOut(),
    async whileHeld(work) {
      await requireDocuments(content)
      const store = new ShelvedStore(shelfWith(), formatAfter(steps))
      await store.open()
      try {
        return await work({ copyOut: () => copyOut() })
      } finally {
        await store.close()
      }
    },
    async fill(work) {
      const shelf = shelfWith(clearLeavings)
      const store = new ShelvedStore(shelf, formatAfter(steps))
      await store.open()
      const target: Archive = { copyOut: () => copyOut(true), copyIn: (copy) => store.copyIn(copy) }
      try {
        const result = await work(target)
        await unmarkFilling(files, folder)
        return result
      } catch (error) {
        // The mark goes last: where clearing fails, what is left is still told for what it is.
        await clear(shelf).then(() => unmarkFilling(files, folder), () => undefined)
        throw error
      } finally {
        await store.close()
      }
    },
  }
}

function describeOccupied(folder: string): StoreError {
  const mend = 'Name an empty folder, or move what lies there away and keep it.'
  return new StoreError('unavailable', `${folder} holds documents already, and nothing is put in their place. ${mend}`)
}
