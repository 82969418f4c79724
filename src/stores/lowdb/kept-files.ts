import { join } from 'node:path'
import type { DocumentId } from '#src/domain/identifier.ts'
import type { Migration } from '#src/ports/migration.ts'
import { StoreError } from '#src/ports/store.ts'
import type { Cipher } from '../cipher.ts'
import { parseDocumentFileName } from '../document-file-name.ts'
import { envelopeFormat } from '../envelope.ts'
import { readErrorCode } from '../store-failure.ts'
import { decodeEnvelope, type Decoded } from '../stored-envelope.ts'
import { createFileAdapter } from './file-adapter.ts'
import type { FileSystem } from './file-system.ts'
import { decodeVolume } from './folder-shelf.ts'
import { documentPlace, volumePlace } from './places.ts'
import { draftOf, previousOf } from './replace-file.ts'
import { keepSideText, readSideText, sideFiles, type SideFile } from './side-file.ts'

/** One file of a data folder, whatever it holds, that is read and written as it is: nothing in it is migrated. */
export interface KeptFile {
  readonly path: string
  /** Opens it with the first of the ciphers that fits, and says which did. Throws the first one's StoreError where none does. */
  read(ciphers: readonly [Cipher, Cipher]): Promise<{ readonly value: unknown; readonly cipher: Cipher }>
  write(value: unknown, cipher: Cipher): Promise<void>
}

export interface KeptFiles {
  readonly kept: readonly KeptFile[]
  /** What a crash has left half written. */
  readonly drafts: readonly string[]
}

/** Documents, their last generations, volumes (also those that no document counts yet) and side files; nothing of anybody else's. */
export async function findKeptFiles(files: FileSystem, folder: string, steps: readonly Migration[]): Promise<KeptFiles> {
  const documents = await listFolder(files, join(folder, 'documents'))
  if (documents === null) throw new StoreError('unavailable', `Nothing is stored in ${folder} yet. Set DATA_DIR to the folder of the clinic, or run start first.`)
  const kept: KeptFile[] = []
  const drafts: string[] = []
  const add = (names: ReadonlySet<string>, file: KeptFile, name: string): void => {
    if (names.has(name)) kept.push(file)
    if (names.has(draftOf(name))) drafts.push(draftOf(file.path))
  }
  const documentNames = new Set(documents)
  for (const { id, name } of idsIn(documents, /\.json(\.previous)?(\.tmp)?$/)) {
    const path = join(folder, 'documents', `${name}.json`)
    const decode = (value: unknown): Decoded<unknown> => decodeEnvelope(value, id, steps)
    // The last generation first: it is never in the old key alone while the document is in the new one.
    add(documentNames, sealedFile(files, previousOf(path), documentPlace(id), decode), previousOf(`${name}.json`))
    add(documentNames, sealedFile(files, path, documentPlace(id), decode), `${name}.json`)
  }
  for (const { id, name } of idsIn((await listFolder(files, join(folder, 'volumes'))) ?? [], /$/)) {
    const volumes = new Set((await listFolder(files, join(folder, 'volumes', name))) ?? [])
    for (const number of numbersIn(volumes)) {
      const path = join(folder, 'volumes', name, `${number}.json`)
      add(volumes, sealedFile(files, path, volumePlace(id, number), (value) => decodeVolume(value, id, number)), `${number}.json`)
    }
  }
  const beside = new Set((await listFolder(files, folder)) ?? [])
  for (const name of sideFiles) add(beside, sideFile(files, folder, name), name)
  return { kept, drafts }
}

function sealedFile(files: FileSystem, path: string, place: string, decode: (value: unknown) => Decoded<unknown>): KeptFile {
  // Checked as the store would, and given back as it stands.
  const asItStands = (value: unknown): Decoded<object> => {
    const decoded = decode(value)
    return decoded.kind === 'good' ? { kind: 'good', value: value as object } : decoded
  }
  const adapter = (cipher: Cipher) =>
    createFileAdapter<object>(files, { path, place, cipher, newestFormat: envelopeFormat, keepsPrevious: false, decode: asItStands })
  return {
    path,
    read: (ciphers) => readWithEither(ciphers, path, (cipher) => adapter(cipher).read()),
    write: (value, cipher) => adapter(cipher).write(value as object),
  }
}

function sideFile(files: FileSystem, folder: string, name: SideFile): KeptFile {
  const path = join(folder, name)
  return {
    path,
    read: (ciphers) => readWithEither(ciphers, path, (cipher) => readSideText(folder, name, cipher, files)),
    write: (value, cipher) => keepSideText(folder, name, String(value), cipher, files),
  }
}

type Ciphers = readonly [Cipher, Cipher]

async function readWithEither<T>([first, second]: Ciphers, path: string, read: (cipher: Cipher) => Promise<T | null>): Promise<{ value: T; cipher: Cipher }> {
  const kept = async (cipher: Cipher): Promise<{ value: T; cipher: Cipher }> => {
    const value = await read(cipher)
    if (value === null) throw new StoreError('damaged', `${path} has gone while it was read. Nothing was changed; try again.`)
    return { value, cipher }
  }
  try {
    return await kept(first)
  } catch (error) {
    if (!isKeyed(error)) throw error
    return kept(second).catch((other: unknown) => {
      throw isKeyed(other) ? error : other
    })
  }
}

function isKeyed(error: unknown): error is StoreError {
  return error instanceof StoreError && error.code === 'keyed'
}

/** Each id once, by name, with its name; `ending` is what may follow the name. */
function idsIn(names: readonly string[], ending: RegExp): readonly { readonly id: DocumentId; readonly name: string }[] {
  const bare = new Set(names.filter((name) => ending.test(name)).map((name) => name.replace(ending, '')))
  return [...bare].toSorted().flatMap((name) => {
    const id = parseDocumentFileName(name)
    return id === null ? [] : [{ id, name }]
  })
}

/** Of volumes and their drafts. */
function numbersIn(names: ReadonlySet<string>): readonly number[] {
  const numbers = [...names].flatMap((name) => /^([1-9]\d{0,8})\.json(\.tmp)?$/.exec(name)?.[1] ?? []).map(Number)
  return [...new Set(numbers)].toSorted((a, b) => a - b)
}

/** Null where there is no such folder. */
async function listFolder(files: FileSystem, path: string): Promise<readonly string[] | null> {
  try {
    return await files.list(path)
  } catch (error) {
    const code = readErrorCode(error)
    if (code === 'ENOENT' || code === 'ENOTDIR') return null
    throw error
  }
}
