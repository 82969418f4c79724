import type { Store } from '#src/ports/store.ts'
import { formatAfter, migrations } from '../migrations.ts'
import type { Migration } from '../migrations.ts'
import { ShelvedStore } from '../shelved-store.ts'
import { nodeFileSystem } from './file-system.ts'
import type { FileSystem } from './file-system.ts'
import { lockFolder } from './folder-lock.ts'
import { FolderShelf } from './folder-shelf.ts'
import type { LockHolder } from './process-identity.ts'
import { shareFolderSyncs } from './share-folder-syncs.ts'

export interface LowdbOptions {
  readonly folder: string
  readonly isAlive?: (holder: LockHolder) => boolean
  readonly files?: FileSystem
  readonly steps?: readonly Migration[]
}

/** The embedded store: one process, one folder, one file a document. */
export function createLowdbStore(options: LowdbOptions): Store {
  const { folder, isAlive, files = nodeFileSystem, steps = migrations } = options
  const lock = () => lockFolder({ files, folder, ...(isAlive === undefined ? {} : { isAlive }) })
  return new ShelvedStore(new FolderShelf({ folder, files: shareFolderSyncs(files), steps, lock }), formatAfter(steps))
}
