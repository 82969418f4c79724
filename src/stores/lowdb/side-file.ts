import { join } from 'node:path'
import { StoreError } from '#src/ports/store.ts'
import type { Cipher } from '../cipher.ts'
import { readErrorCode, toStoreError } from '../store-failure.ts'
import { nodeFileSystem, type FileSystem } from './file-system.ts'
import { replaceFile } from './replace-file.ts'

/**
 * Files beside the documents in which somebody's words may stand. They are sealed as the documents are and change their key
 * with them. All others that the program leaves in the folder hold no words of anybody and are read without a key:
 * `running.json` (counts), `triage-signature.yaml` (who has signed), `demo-clock.json`, `lock.json`, `key-change.json`.
 */
export const sideFiles = ['demo-chat.json'] as const
export type SideFile = (typeof sideFiles)[number]

/** What was last kept there, null where nothing was; throws a StoreError that names the file. */
export async function readSideFile(folder: string, name: SideFile, cipher: Cipher, files: FileSystem = nodeFileSystem): Promise<unknown> {
  const text = await readSideText(folder, name, cipher, files)
  if (text === null) return null
  try {
    return JSON.parse(text)
  } catch {
    throw new StoreError('damaged', `${join(folder, name)} is damaged: it is cut or no record. It was left as it is; move it away to begin anew.`)
  }
}

/** Whole or not at all. */
export async function keepSideFile(folder: string, name: SideFile, value: unknown, cipher: Cipher, files: FileSystem = nodeFileSystem): Promise<void> {
  await keepSideText(folder, name, JSON.stringify(value), cipher, files)
}

/** Null where no file stands; throws a `keyed`, `damaged` or `newer` StoreError that names the file. */
export async function readSideText(folder: string, name: SideFile, cipher: Cipher, files: FileSystem): Promise<string | null> {
  const path = join(folder, name)
  let sealed: string
  try {
    sealed = await files.readText(path)
  } catch (error) {
    if (readErrorCode(error) === 'ENOENT') return null
    throw toStoreError(error, path)
  }
  try {
    return cipher.unseal(sealed, name)
  } catch (error) {
    // The cipher knows the place by its name alone.
    throw error instanceof StoreError ? new StoreError(error.code, `In ${folder}: ${error.message}`) : error
  }
}

export async function keepSideText(folder: string, name: SideFile, text: string, cipher: Cipher, files: FileSystem): Promise<void> {
  const path = join(folder, name)
  try {
    await replaceFile(files, path, cipher.seal(text, name), false)
  } catch (error) {
    throw toStoreError(error, path)
  }
}
