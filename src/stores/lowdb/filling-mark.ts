// What stands in a data folder while a whole clinic is put into it: a folder half filled must not be taken for a clinic.
import { join } from 'node:path'
import { StoreError } from '#src/ports/store.ts'
import { readErrorCode, toStoreError } from '../store-failure.ts'
import type { FileSystem } from './file-system.ts'
import { writeSynced } from './replace-file.ts'

const text = '{"format":1,"about":"A copy is being put into this folder; what lies here is not whole."}\n'

export async function isFilling(files: FileSystem, folder: string): Promise<boolean> {
  try {
    await files.readText(pathIn(folder))
    return true
  } catch (error) {
    if (readErrorCode(error) === 'ENOENT' || readErrorCode(error) === 'ENOTDIR') return false
    throw toStoreError(error, pathIn(folder))
  }
}

/** Rejects `damaged` where a copy was put in half. */
export async function refuseFilling(files: FileSystem, folder: string): Promise<void> {
  if (!(await isFilling(files, folder))) return
  const mend = `Run the same "restore" or "migrate" again: it clears away what lies there and begins anew.`
  throw new StoreError('damaged', `The data folder ${folder} holds a copy that was put in only in part (${pathIn(folder)} stands there). ${mend}`)
}

/** Durable when it resolves. */
export async function markFilling(files: FileSystem, folder: string): Promise<void> {
  await writeSynced(files, pathIn(folder), text)
  await files.syncFolder(folder)
}

export async function unmarkFilling(files: FileSystem, folder: string): Promise<void> {
  await files.remove(pathIn(folder))
  await files.syncFolder(folder)
}

function pathIn(folder: string): string {
  return join(folder, 'filling.json')
}
