// What stands in the database, and what it is in the program: JSON texts, sealed where the clinic has a key.
import { z } from 'zod'
import type { Entry } from '#src/domain/entry.ts'
import type { DocumentId } from '#src/domain/identifier.ts'
import type { Contact, Effect } from '#src/domain/message.ts'
import type { Migration, StoredRecord } from '#src/ports/migration.ts'
import { StoreError, type DocumentKind, type Head, type StoredDocument } from '#src/ports/store.ts'
import type { Cipher } from '../cipher.ts'
import { keepJson, writeJson } from '../keep-json.ts'
import { formatAfter, migrateDocument, migrateEffect } from '../migrations.ts'
import { describeNewer } from './schema.ts'

const documentShape = z.looseObject({ kind: z.string(), id: z.string(), format: z.int().min(1) })
const entryShape = z.looseObject({ id: z.string() })
const effectShape = z.looseObject({ kind: z.string(), id: z.string() })
const headShape = z.looseObject({ id: z.string(), kind: z.string() })

/** A clinic's contacts are nobody's conversation. If several claim a contact, the lower place wins, then the id. */
export const placeByKind: Record<DocumentKind, number | null> = { clinic: null, desk: 0, chart: 1 }

export interface Rows {
  document(document: StoredDocument): string
  readDocument(id: DocumentId, text: string): StoredDocument
  head(head: Head): string
  readHead(id: DocumentId, text: string): Head
  entry(id: DocumentId, seq: number, entry: Entry): string
  readEntry(id: DocumentId, seq: number, text: string): Entry
  effect(id: DocumentId, effect: Effect): string
  readEffect(id: DocumentId, effectId: string, format: number, text: string): Effect
  ref(id: DocumentId, effectId: string, ref: string): string
  readRef(id: DocumentId, effectId: string, text: string): string
  contact(contact: Contact): string
}

export function createRows(cipher: Cipher, steps: readonly Migration[]): Rows {
  const format = formatAfter(steps)
  const write = (value: unknown, place: string): string => cipher.seal(JSON.stringify(value), place)

  function read<T>(shape: z.ZodType, text: string, place: string): T {
    const opened = cipher.unseal(text, place)
    const shaped = shape.safeParse(parseOrNull(opened))
    if (!shaped.success) throw new StoreError('damaged', `${place} in the database is damaged. It was left as it is. Restore a backup.`)
    return shaped.data as T
  }

  return {
    document: (document) => cipher.seal(writeJson(document), `document:${document.id}`),
    readDocument(id, text) {
      const document = read<StoredRecord>(documentShape, text, `document:${id}`)
      if (document.format > format) throw describeNewer(document.format)
      return keepJson(migrateDocument(document, steps))
    },
    head: (head) => write(head, `head:${head.id}`),
    readHead: (id, text) => read<Head>(headShape, text, `head:${id}`),
    entry: (id, seq, entry) => write(entry, `entry:${id}:${seq}`),
    readEntry: (id, seq, text) => read<Entry>(entryShape, text, `entry:${id}:${seq}`),
    effect: (id, effect) => write(effect, `effect:${id}:${effect.id}`),
    readEffect: (id, effectId, of, text) => migrateEffect(read<Effect>(effectShape, text, `effect:${id}:${effectId}`), of, steps),
    ref: (id, effectId, ref) => cipher.seal(ref, `ref:${id}:${effectId}`),
    readRef: (id, effectId, text) => cipher.unseal(text, `ref:${id}:${effectId}`),
    contact: ({ channel, address }) => cipher.digest(JSON.stringify([channel, address])),
  }
}

function parseOrNull(text: string): unknown {
  try {
    return JSON.parse(text)
  } catch {
    return null
  }
}
