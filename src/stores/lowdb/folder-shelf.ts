import { dirname, join } from 'node:path'
import { Low } from 'lowdb'
import { z } from 'zod'
import type { Entry } from '#src/domain/entry.ts'
import type { DocumentId } from '#src/domain/identifier.ts'
import type { Migration } from '#src/ports/migration.ts'
import { StoreError } from '#src/ports/store.ts'
import type { StoreErrorCode } from '#src/ports/store.ts'
import type { Cipher } from '../cipher.ts'
import { documentFileName, parseDocumentFileName } from '../document-file-name.ts'
import { envelopeFormat } from '../envelope.ts'
import type { Envelope } from '../envelope.ts'
import { keepJson } from '../keep-json.ts'
import type { Shelf } from '../shelf.ts'
import { toStoreError } from '../store-failure.ts'
import { decodeEnvelope } from '../stored-envelope.ts'
import type { Decoded } from '../stored-envelope.ts'
import { createFileAdapter, describeDamaged } from './file-adapter.ts'
import type { SealedFile } from './file-adapter.ts'
import type { FileSystem } from './file-system.ts'
import { refuseFilling } from './filling-mark.ts'
import { beatEveryMs } from './folder-lock.ts'
import type { FolderLock } from './folder-lock.ts'
import { requireOneKey } from './key-change.ts'
import { documentPlace, volumePlace } from './places.ts'
import { removeFile } from './replace-file.ts'

export interface FolderShelfOptions {
  readonly folder: string
  readonly files: FileSystem
  readonly steps: readonly Migration[]
  readonly cipher: Cipher
  readonly lock: () => Promise<FolderLock>
  /** Called once the lock is held and before anything is read; by default it refuses a folder that was filled only in part. */
  readonly prepare?: (shelf: FolderShelf) => Promise<void>
}

export interface Volume {
  readonly format: typeof envelopeFormat
  readonly id: DocumentId
  readonly number: number
  readonly entries: readonly Entry[]
}

const volumeShape = z.object({
  format: z.literal(envelopeFormat),
  id: z.string(),
  number: z.int(),
  entries: z.array(z.unknown()),
})

/** Our choice: a chart with a year behind it takes some 80 KB of memory with its text, so 80 MB, and all that are spoken with within minutes. */
export const residentDocuments = 1024
/** Our choice: enough to keep a disk busy at the start. */
const readAtOnce = 16

/** `documents/` with a file each, `volumes/` with a folder each, `lock.json`; anything else in the folder is not ours. */
export class FolderShelf implements Shelf {
  readonly #options: FolderShelfOptions
  /** Least recently used first. */
  readonly #resident = new Map<DocumentId, Low<Envelope | null>>()
  #lock: FolderLock | null = null
  #beats: NodeJS.Timeout | null = null

  constructor(options: FolderShelfOptions) {
    this.#options = options
  }

  async open(visit: (envelope: Envelope) => void): Promise<void> {
    const { folder, files, lock, prepare = () => refuseFilling(files, folder) } = this.#options
    try {
      await this.#makeFolders()
      const held = await lock()
      this.#lock = held
      await requireOneKey(files, folder)
      await prepare(this)
      await this.#visitAll(visit)
      // A beat that fails is made up for by the next one; the lock itself says when it is lost.
      this.#beats = setInterval(() => void held.beat().catch(() => {}), beatEveryMs).unref()
    } catch (error) {
      await this.close().catch(() => {})
      throw toStoreError(error, folder)
    }
  }

  async close(): Promise<void> {
    if (this.#beats !== null) clearInterval(this.#beats)
    await this.#lock?.release()
    this.#lock = null
    this.#resident.clear()
  }

  async read(id: DocumentId): Promise<Envelope | null> {
    return (await this.#keep(id)).data
  }

  async write(envelope: Envelope): Promise<void> {
    this.#requireLock()
    const low = await this.#keep(envelope.id)
    const before = low.data
    low.data = envelope
    try {
      await low.write()
    } catch (error) {
      low.data = before
      throw error
    }
  }

  async readVolume(id: DocumentId, number: number): Promise<readonly Entry[]> {
    const low = this.#openVolume(id, number)
    await low.read()
    if (low.data === null) throw describeMissing(this.#volumePath(id, number))
    return low.data.entries
  }

  async writeVolume(id: DocumentId, number: number, entries: readonly Entry[]): Promise<void> {
    this.#requireLock()
    try {
      await this.#makeFolder(dirname(this.#volumePath(id, number)))
    } catch (error) {
      throw toStoreError(error, this.#volumePath(id, number))
    }
    const low = this.#openVolume(id, number)
    low.data = { format: envelopeFormat, id, number, entries }
    await low.write()
  }

  async erase(id: DocumentId): Promise<void> {
    this.#requireLock()
    const { files } = this.#options
    const { path } = this.#documentFile(id)
    const volumes = dirname(this.#volumePath(id, 1))
    this.#resident.delete(id)
    try {
      // The document first: volumes without one are orphans, a document without its volumes is damaged.
      await removeFile(files, path)
      await files.removeFolder(volumes)
      await files.syncFolder(dirname(volumes))
    } catch (error) {
      throw toStoreError(error, path)
    }
  }

  /** The document's lowdb instance, read from its file unless it is resident. */
  async #keep(id: DocumentId): Promise<Low<Envelope | null>> {
    const resident = this.#resident.get(id)
    const low = resident ?? new Low<Envelope | null>(createFileAdapter(this.#options.files, this.#documentFile(id)), null)
    if (resident === undefined) {
      await low.read()
      low.data = keepJson(low.data)
    }
    this.#resident.delete(id)
    this.#resident.set(id, low)
    const [eldest] = this.#resident.keys()
    if (this.#resident.size > residentDocuments && eldest !== undefined) this.#resident.delete(eldest)
    return low
  }

  async #visitAll(visit: (envelope: Envelope) => void): Promise<void> {
    const names = await this.#options.files.list(join(this.#options.folder, 'documents'))
    const ids = listIds(names, '.json')
    const problems: StoreError[] = []
    const orphans = listIds(names, '.json.previous').filter((id) => !ids.includes(id))
    for (const id of orphans) {
      problems.push(await describeDamaged(this.#options.files, this.#documentFile(id), 'it is missing'))
    }
    for (let start = 0; start < ids.length; start += readAtOnce) {
      const reads = ids.slice(start, start + readAtOnce).map((id) => this.#check(id))
      for (const checked of await Promise.all(reads)) {
        if (checked instanceof StoreError) problems.push(checked)
        else visit(checked)
      }
    }
    if (problems.length > 0) throw joinProblems(problems)
  }

  /** Reads a document past the resident ones and looks whether its volumes stand; these are read when asked for. */
  async #check(id: DocumentId): Promise<Envelope | StoreError> {
    const { files } = this.#options
    try {
      const envelope = await createFileAdapter(files, this.#documentFile(id)).read()
      if (envelope === null) return describeMissing(this.#documentFile(id).path)
      const folder = dirname(this.#volumePath(id, 1))
      const names = new Set(envelope.volumes === 0 ? [] : await files.list(folder).catch(() => []))
      for (let number = 1; number <= envelope.volumes; number += 1) {
        if (!names.has(`${number}.json`)) return describeMissing(this.#volumePath(id, number))
      }
      return envelope
    } catch (error) {
      if (error instanceof StoreError) return error
      throw error
    }
  }

  #documentFile(id: DocumentId): SealedFile<Envelope> {
    return {
      path: join(this.#options.folder, 'documents', `${documentFileName(id)}.json`),
      place: documentPlace(id),
      cipher: this.#options.cipher,
      newestFormat: envelopeFormat,
      keepsPrevious: true,
      decode: (value) => decodeEnvelope(value, id, this.#options.steps),
    }
  }

  #volumePath(id: DocumentId, number: number): string {
    return join(this.#options.folder, 'volumes', documentFileName(id), `${number}.json`)
  }

  #openVolume(id: DocumentId, number: number): Low<Volume | null> {
    const path = this.#volumePath(id, number)
    const decode = (value: unknown): Decoded<Volume> => decodeVolume(value, id, number)
    const { cipher } = this.#options
    const file = { path, place: volumePlace(id, number), cipher, newestFormat: envelopeFormat, keepsPrevious: false, decode }
    return new Low<Volume | null>(createFileAdapter(this.#options.files, file), null)
  }

  async #makeFolders(): Promise<void> {
    for (const name of ['documents', 'volumes']) await this.#makeFolder(join(this.#options.folder, name))
  }

  /** A new folder is only durable once the one above it is synced, up to the first that stood before. */
  async #makeFolder(path: string): Promise<void> {
    const topmost = await this.#options.files.makeFolder(path)
    if (topmost === null) return
    for (let made = path; made.length >= topmost.length; made = dirname(made)) {
      await this.#options.files.syncFolder(dirname(made))
    }
  }

  #requireLock(): void {
    if (this.#lock !== null && !this.#lock.isLost()) return
    const message = `The data folder ${this.#options.folder} was taken by another process. Let only one run.`
    throw new StoreError('unavailable', message)
  }
}

function listIds(names: readonly string[], ending: string): readonly DocumentId[] {
  return names
    .filter((name) => name.endsWith(ending))
    .map((name) => parseDocumentFileName(name.slice(0, -ending.length)))
    .filter((id) => id !== null)
}

export function decodeVolume(value: unknown, id: DocumentId, number: number): Decoded<Volume> {
  const shaped = volumeShape.safeParse(value)
  if (!shaped.success) return { kind: 'damaged', what: 'it lacks parts' }
  const isOfPlace = shaped.data.id === id && shaped.data.number === number
  if (!isOfPlace) return { kind: 'damaged', what: 'it is the volume of another place' }
  return { kind: 'good', value: value as Volume }
}

export function describeMissing(path: string): StoreError {
  return new StoreError('damaged', `${path} is missing. Nothing was changed. Restore it from a backup.`)
}

/** All of them at once, so that nobody mends one file only to meet the next; but a wrong key is one problem, not one a file. */
function joinProblems(problems: readonly StoreError[]): StoreError {
  const keyed = problems.find((problem) => problem.code === 'keyed')
  if (keyed !== undefined) return keyed
  const code: StoreErrorCode = problems.find((problem) => problem.code !== 'newer')?.code ?? 'newer'
  return new StoreError(code, problems.map((problem) => problem.message).join('\n'))
}
