import { join } from 'node:path'
import { z } from 'zod'
import { StoreError } from '#src/ports/store.ts'
import { plain } from '../cipher.ts'
import { readErrorCode, toStoreError } from '../store-failure.ts'
import type { FileSystem } from './file-system.ts'
import { removeFile, replaceFile } from './replace-file.ts'
import { sealText, unsealText } from './sealed-text.ts'

const shape = z.object({ format: z.literal(1), from: z.string().nullable(), to: z.string().nullable() })

/** The ids of two keys; null for none. */
export type KeyChange = Pick<z.infer<typeof shape>, 'from' | 'to'>

/** Stands in the folder as long as its files may be in either of two keys. */
export function keyChangePath(folder: string): string {
  return join(folder, 'key-change.json')
}

export async function beginKeyChange(files: FileSystem, folder: string, { from, to }: KeyChange): Promise<void> {
  await replaceFile(files, keyChangePath(folder), sealText({ format: 1, from, to }, plain, 'key-change'), false)
}

export async function endKeyChange(files: FileSystem, folder: string): Promise<void> {
  await removeFile(files, keyChangePath(folder))
}

/** Throws a `keyed` StoreError where a change of the key has not come to its end: only that can go on. */
export async function requireOneKey(files: FileSystem, folder: string): Promise<void> {
  const text = await readOrNull(files, keyChangePath(folder))
  if (text === null) return
  const keys = describeKeys(text)
  const mend = 'Run "migrate --rekey" again with the same DATA_KEY and DATA_KEY_NEXT; it goes on where it stopped. Nothing was changed.'
  throw new StoreError('keyed', `The change of the key of ${folder}${keys} has not come to its end. ${mend}`)
}

/** What the file says is for people alone: each file of the folder tells its key by itself. */
function describeKeys(text: string): string {
  const unsealed = unsealText(text, 1, plain, 'key-change')
  const read = shape.safeParse(unsealed.kind === 'good' ? unsealed.value : null)
  if (!read.success) return ''
  const name = (id: string | null): string => (id === null ? 'no key' : `key ${id}`)
  return ` (from ${name(read.data.from)} to ${name(read.data.to)})`
}

async function readOrNull(files: FileSystem, path: string): Promise<string | null> {
  try {
    return await files.readText(path)
  } catch (error) {
    const code = readErrorCode(error)
    // A folder that does not stand, or is none, is for others to complain of.
    if (code === 'ENOENT' || code === 'ENOTDIR') return null
    throw toStoreError(error, path)
  }
}
