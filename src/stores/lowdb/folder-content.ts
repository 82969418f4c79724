// The files of a data folder for whoever reads it without the shelf.
import { join } from 'node:path'
import type { Adapter } from 'lowdb'
import type { DocumentId } from '#src/domain/identifier.ts'
import type { Migration } from '#src/ports/migration.ts'
import type { Cipher } from '../cipher.ts'
import { documentFileName, parseDocumentFileName } from '../document-file-name.ts'
import { envelopeFormat, type Envelope } from '../envelope.ts'
import { readErrorCode, toStoreError } from '../store-failure.ts'
import { decodeEnvelope } from '../stored-envelope.ts'
import { createFileAdapter, type SealedFile } from './file-adapter.ts'
import type { FileSystem } from './file-system.ts'
import { decodeVolume, type Volume } from './folder-shelf.ts'
import { documentPlace, volumePlace } from './places.ts'

export interface FolderContent {
  readonly folder: string
  readonly files: FileSystem
  readonly steps: readonly Migration[]
  readonly cipher: Cipher
}

export function documentsIn(folder: string): string {
  return join(folder, 'documents')
}

export function volumesIn(folder: string): string {
  return join(folder, 'volumes')
}

export function documentFile({ folder, steps, cipher }: FolderContent, id: DocumentId): SealedFile<Envelope> {
  return {
    path: join(documentsIn(folder), `${documentFileName(id)}.json`),
    place: documentPlace(id),
    cipher,
    newestFormat: envelopeFormat,
    keepsPrevious: true,
    decode: (value) => decodeEnvelope(value, id, steps),
  }
}

export function volumeFile({ folder, cipher }: FolderContent, id: DocumentId, number: number): SealedFile<Volume> {
  return {
    path: join(volumesIn(folder), documentFileName(id), `${number}.json`),
    place: volumePlace(id, number),
    cipher,
    newestFormat: envelopeFormat,
    keepsPrevious: false,
    decode: (value) => decodeVolume(value, id, number),
  }
}

export function openFile<T extends object>({ files }: FolderContent, file: SealedFile<T>): Adapter<T | null> {
  return createFileAdapter(files, file)
}

export interface DocumentNames {
  readonly id: DocumentId
  readonly hasPrevious: boolean
}

/** Every id of which any file stands. A list taken while a file is renamed may lack its name; its other names then tell of it. */
export async function listDocuments({ files, folder }: Pick<FolderContent, 'files' | 'folder'>): Promise<readonly DocumentNames[]> {
  const found = new Map<DocumentId, boolean>()
  for (const name of await listNames(files, documentsIn(folder))) {
    const [, stem = '', ending] = /^(.*)\.json(\.previous|\.tmp)?$/.exec(name) ?? []
    const id = parseDocumentFileName(stem)
    if (id !== null) found.set(id, (found.get(id) ?? false) || ending === '.previous')
  }
  return [...found].map(([id, hasPrevious]) => ({ id, hasPrevious }))
}

/** Ids of which volumes stand, also of documents that do not. */
export async function listVolumeOwners({ files, folder }: Pick<FolderContent, 'files' | 'folder'>): Promise<readonly DocumentId[]> {
  return (await listNames(files, volumesIn(folder))).map(parseDocumentFileName).filter((id) => id !== null)
}

async function listNames(files: FileSystem, path: string): Promise<readonly string[]> {
  try {
    return await files.list(path)
  } catch (error) {
    if (readErrorCode(error) === 'ENOENT') return []
    throw toStoreError(error, path)
  }
}
