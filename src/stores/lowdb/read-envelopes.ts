import { join } from 'node:path'
import type { DocumentId } from '#src/domain/identifier.ts'
import type { Migration } from '#src/ports/migration.ts'
import type { Cipher } from '../cipher.ts'
import { documentFileName, parseDocumentFileName } from '../document-file-name.ts'
import { envelopeFormat, type Envelope } from '../envelope.ts'
import { readErrorCode, toStoreError } from '../store-failure.ts'
import { decodeEnvelope } from '../stored-envelope.ts'
import { createFileAdapter } from './file-adapter.ts'
import { nodeFileSystem, type FileSystem } from './file-system.ts'
import { refuseFilling } from './filling-mark.ts'
import { requireOneKey } from './key-change.ts'
import { documentPlace } from './places.ts'

const ending = '.json'

/**
 * Every document of a data folder, read beside the process that has it: nothing is locked or changed. Each file is
 * replaced whole, so that each document is one that was committed; two of them may be a commit apart. Null where nothing
 * was ever stored; throws a `StoreError` for a damaged, newer or otherwise keyed file.
 */
export async function readEnvelopes(
  folder: string,
  steps: readonly Migration[],
  cipher: Cipher,
  files: FileSystem = nodeFileSystem,
): Promise<readonly Envelope[] | null> {
  await requireOneKey(files, folder)
  await refuseFilling(files, folder)
  const documents = join(folder, 'documents')
  const names = await listOrNull(files, documents)
  if (names === null) return null
  const ids = names.filter((name) => name.endsWith(ending)).flatMap((name) => parseDocumentFileName(name.slice(0, -ending.length)) ?? [])
  const read = await Promise.all(ids.map((id) => readOne(files, documents, id, steps, cipher)))
  // One that was erased meanwhile is no more.
  return read.filter((envelope) => envelope !== null)
}

function readOne(files: FileSystem, documents: string, id: DocumentId, steps: readonly Migration[], cipher: Cipher): Promise<Envelope | null> {
  return createFileAdapter<Envelope>(files, {
    path: join(documents, `${documentFileName(id)}${ending}`),
    place: documentPlace(id),
    cipher,
    newestFormat: envelopeFormat,
    keepsPrevious: true,
    decode: (value) => decodeEnvelope(value, id, steps),
  }).read()
}

async function listOrNull(files: FileSystem, path: string): Promise<readonly string[] | null> {
  try {
    return await files.list(path)
  } catch (error) {
    if (readErrorCode(error) === 'ENOENT') return null
    throw toStoreError(error, path)
  }
}
