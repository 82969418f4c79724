import type { Adapter } from 'lowdb'
import { StoreError } from '#src/ports/store.ts'
import { keyedError, type Cipher } from '../cipher.ts'
import { readErrorCode, toStoreError } from '../store-failure.ts'
import type { Decoded } from '../stored-envelope.ts'
import type { FileSystem } from './file-system.ts'
import { previousOf, replaceFile } from './replace-file.ts'
import { sealText, unsealText, type Unsealed } from './sealed-text.ts'

export interface SealedFile<T> {
  readonly path: string
  /** Bound into what is encrypted, the same for a file and its last generation. */
  readonly place: string
  readonly cipher: Cipher
  readonly newestFormat: number
  readonly keepsPrevious: boolean
  readonly decode: (value: unknown) => Decoded<T>
}

/**
 * lowdb's own file adapter renames without syncing and takes a `null` file for a missing one; this one does neither. It
 * gives null only where no file stands and throws a `damaged`, `newer` or `keyed` StoreError that names the file.
 */
export function createFileAdapter<T extends object>(files: FileSystem, file: SealedFile<T>): Adapter<T | null> {
  return {
    async read() {
      const decoded = await readSealed(files, file, file.path)
      if (decoded === null) return null
      if (decoded.kind === 'good') return decoded.value
      if (decoded.kind === 'newer') throw describeNewer(file.path, decoded.format)
      if (decoded.kind === 'keyed') throw keyedError(file.path, decoded.sealedWith, file.cipher.keyId)
      throw await describeDamaged(files, file, decoded.what)
    },
    async write(value) {
      if (value === null) throw new TypeError('a file is never emptied')
      try {
        await replaceFile(files, file.path, sealText(value, file.cipher, file.place), file.keepsPrevious)
      } catch (error) {
        throw toStoreError(error, file.path)
      }
    },
  }
}

/** A `damaged` error for a file, with the last good copy if there is one. The file itself is not touched. */
export async function describeDamaged<T>(files: FileSystem, file: SealedFile<T>, what: string): Promise<StoreError> {
  const copy = previousOf(file.path)
  const decoded = file.keepsPrevious ? await readSealed(files, file, copy) : null
  const steps = 'keep both safe, then copy it over the damaged file, or restore a backup.'
  const mend =
    decoded?.kind === 'good'
      ? `The last good copy is ${copy}, at most one answer older: ${steps}`
      : 'There is no good copy beside it: restore a backup.'
  return new StoreError('damaged', `${file.path} is damaged: ${what}. It was left as it is. ${mend}`)
}

function describeNewer(path: string, format: number): StoreError {
  const mend = 'Install that version or a later one; the file was left as it is.'
  return new StoreError('newer', `${path} was written by a newer version of this program (format ${format}). ${mend}`)
}

async function readSealed<T>(files: FileSystem, file: SealedFile<T>, path: string): Promise<Decoded<T> | Exclude<Unsealed, Decoded<unknown>> | null> {
  let text: string
  try {
    text = await files.readText(path)
  } catch (error) {
    if (readErrorCode(error) === 'ENOENT') return null
    throw toStoreError(error, path)
  }
  const unsealed = unsealText(text, file.newestFormat, file.cipher, file.place)
  return unsealed.kind === 'good' ? file.decode(unsealed.value) : unsealed
}
