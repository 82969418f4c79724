import { dirname } from 'node:path'
import type { Migration } from '#src/ports/migration.ts'
import { StoreError } from '#src/ports/store.ts'
import type { Cipher } from '../cipher.ts'
import { toStoreError } from '../store-failure.ts'
import { nodeFileSystem, type FileSystem } from './file-system.ts'
import { beatEveryMs, lockFolder, type FolderLock } from './folder-lock.ts'
import { findKeptFiles, type KeptFile } from './kept-files.ts'
import { beginKeyChange, endKeyChange } from './key-change.ts'
import type { LockHolder } from './process-identity.ts'
import { shareFolderSyncs } from './share-folder-syncs.ts'

export interface KeyRotation {
  readonly folder: string
  /** The present key, and the one that follows it; one of them may be `plain`. */
  readonly from: Cipher
  readonly to: Cipher
  readonly steps: readonly Migration[]
  readonly files?: FileSystem
  readonly isAlive?: (holder: LockHolder) => boolean
  /** Called after each file. */
  readonly onProgress?: (done: number, of: number) => void
}

/** How many files there are, and how many of them were in the old key until now. */
export interface KeyRotated {
  readonly files: number
  readonly resealed: number
}

/** Our choice: enough to keep a disk busy. */
const filesAtOnce = 16

/**
 * Re-seals everything that is kept in a folder. Every file is read first: where one can be opened with neither key, is damaged
 * or newer, nothing is changed. While files may be in either key, `key-change.json` stands in the folder and nobody else opens
 * it. Cut short at any instant it goes on when it is called again with the same two keys, or turns back with the two exchanged.
 * Rejects with a {@link StoreError}.
 */
export async function rotateKey(rotation: KeyRotation): Promise<KeyRotated> {
  const { folder, from, to, isAlive } = rotation
  if (from.keyId === to.keyId) throw new StoreError('keyed', 'The new key is the present one. Nothing was changed; set DATA_KEY_NEXT to another key.')
  const files = shareFolderSyncs(rotation.files ?? nodeFileSystem)
  try {
    // Before the lock, which would leave its file in a folder that is none of ours.
    await findKeptFiles(files, folder, rotation.steps)
    const lock = await lockFolder({ files, folder, ...(isAlive === undefined ? {} : { isAlive }) })
    // A beat that fails is made up for by the next one; the lock itself says when it is lost.
    const beats = setInterval(() => void lock.beat().catch(() => {}), beatEveryMs).unref()
    try {
      return await resealAll(rotation, files, lock)
    } finally {
      clearInterval(beats)
      await lock.release()
    }
  } catch (error) {
    throw toStoreError(error, folder)
  }
}

async function resealAll({ folder, from, to, steps, onProgress = () => {} }: KeyRotation, files: FileSystem, lock: FolderLock): Promise<KeyRotated> {
  const { kept, drafts } = await findKeptFiles(files, folder, steps)
  await inBatches(kept, (file) => file.read([from, to]))
  await beginKeyChange(files, folder, { from: from.keyId, to: to.keyId })
  // What a crash has left half written was never committed, and may stand there unencrypted.
  for (const draft of drafts) {
    await files.remove(draft)
    await files.syncFolder(dirname(draft))
  }
  let done = 0
  const outcomes = await inBatches(kept, async (file) => {
    const isResealed = await reseal(file, from, to, folder, lock)
    done += 1
    onProgress(done, kept.length)
    return isResealed
  })
  await endKeyChange(files, folder)
  return { files: kept.length, resealed: outcomes.filter((isResealed) => isResealed).length }
}

/** Tells whether the file was in the old key. */
async function reseal(file: KeptFile, from: Cipher, to: Cipher, folder: string, lock: FolderLock): Promise<boolean> {
  const { value, cipher } = await file.read([from, to])
  if (cipher === to) return false
  if (lock.isLost()) throw new StoreError('unavailable', `The data folder ${folder} was taken by another process. Let only one run.`)
  await file.write(value, to)
  return true
}

/** Where one fails, those beside it have ended before this rejects: nothing is written any more once the lock is released. */
async function inBatches<T>(kept: readonly KeptFile[], work: (file: KeptFile) => Promise<T>): Promise<readonly T[]> {
  const results: T[] = []
  for (let start = 0; start < kept.length; start += filesAtOnce) {
    const outcomes = await Promise.allSettled(kept.slice(start, start + filesAtOnce).map(work))
    for (const outcome of outcomes) {
      if (outcome.status === 'rejected') throw outcome.reason
      results.push(outcome.value)
    }
  }
  return results
}
