import type { Archive } from '#src/ports/archive.ts'
import type { Migration } from '#src/ports/migration.ts'
import type { Store } from '#src/ports/store.ts'
import { plain, type Cipher } from '../cipher.ts'
import { formatAfter, noMigrations } from '../migrations.ts'
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
  /** How documents of earlier formats are brought to the present one. */
  readonly steps?: readonly Migration[]
  /** Encrypts documents and volumes; left out, they are kept as they are. */
  readonly cipher?: Cipher
}

/** The embedded store: one process, one folder, one file a document. */
export function createLowdbStore(options: LowdbOptions): Store & Pick<Archive, 'copyIn'> {
  const { folder, isAlive, files = nodeFileSystem, steps = noMigrations, cipher = plain } = options
  const lock = () => lockFolder({ files, folder, ...(isAlive === undefined ? {} : { isAlive }) })
  return new ShelvedStore(new FolderShelf({ folder, files: shareFolderSyncs(files), steps, cipher, lock }), formatAfter(steps))
}
