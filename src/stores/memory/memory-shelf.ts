import type { Entry } from '#src/domain/entry.ts'
import type { DocumentId } from '#src/domain/identifier.ts'
import type { Migration } from '#src/ports/migration.ts'
import { StoreError } from '#src/ports/store.ts'
import { documentFileName, parseDocumentFileName } from '../document-file-name.ts'
import type { Envelope } from '../envelope.ts'
import { keepJson } from '../keep-json.ts'
import type { Shelf } from '../shelf.ts'
import { toStoreError } from '../store-failure.ts'
import { decodeEnvelope } from '../stored-envelope.ts'
import type { MemoryDisk } from './memory-disk.ts'

const place = 'the memory store'

/** Every value goes through JSON text on its way in and out, as it would through a file. */
export function createMemoryShelf(disk: MemoryDisk, steps: readonly Migration[]): Shelf {
  const self = Symbol('holder')

  async function read(id: DocumentId): Promise<Envelope | null> {
    const text = disk.get(documentKey(id))
    if (text === null) return null
    const decoded = decodeEnvelope(JSON.parse(text), id, steps)
    if (decoded.kind === 'good') return keepJson(decoded.value)
    throw new StoreError(decoded.kind, `A document in ${place} is ${decoded.kind}.`)
  }

  async function visitAll(visit: (envelope: Envelope) => void): Promise<void> {
    for (const key of disk.keys()) {
      const id = parseDocumentKey(key)
      const envelope = id === null ? null : await read(id)
      if (envelope !== null) visit(envelope)
    }
  }

  function release(): void {
    if (disk.holder === self) disk.holder = null
  }

  async function put(key: string, value: unknown): Promise<void> {
    try {
      await disk.put(key, JSON.stringify(value))
    } catch (error) {
      throw toStoreError(error, place)
    }
  }

  return {
    async open(visit) {
      if (disk.holder !== null) throw new StoreError('locked', `Another store uses ${place}; close it first.`)
      disk.holder = self
      try {
        await visitAll(visit)
      } catch (error) {
        release()
        throw error
      }
    },
    close: async () => release(),
    read,
    write: (envelope) => put(documentKey(envelope.id), envelope),
    async readVolume(id, number) {
      const text = disk.get(volumeKey(id, number))
      if (text === null) throw new StoreError('damaged', `A volume in ${place} is missing.`)
      return JSON.parse(text) as readonly Entry[]
    },
    writeVolume: (id, number, entries) => put(volumeKey(id, number), entries),
    async erase(id) {
      const volumes = volumeKey(id, '')
      const isOfDocument = (key: string) => key === documentKey(id) || key.startsWith(volumes)
      for (const key of disk.keys().filter(isOfDocument)) disk.remove(key)
    },
  }
}

/** In the order of their code units. */
export function listDocumentIds(disk: MemoryDisk): readonly DocumentId[] {
  const ids = disk.keys().map(parseDocumentKey).filter((id) => id !== null)
  return ids.sort((a, b) => (a < b ? -1 : a > b ? 1 : 0))
}

function documentKey(id: DocumentId): string {
  return `documents/${documentFileName(id)}`
}

function parseDocumentKey(key: string): DocumentId | null {
  return key.startsWith('documents/') ? parseDocumentFileName(key.slice('documents/'.length)) : null
}

function volumeKey(id: DocumentId, number: number | ''): string {
  return `volumes/${documentFileName(id)}/${number}`
}
