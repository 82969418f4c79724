import { z } from 'zod'
import type { DocumentId } from '#src/domain/identifier.ts'
import type { Migration, StoredRecord } from '#src/ports/migration.ts'
import { documentKinds } from '#src/ports/store.ts'
import { envelopeFormat } from './envelope.ts'
import type { Envelope } from './envelope.ts'
import { formatAfter, migrateDocument, migrateEffect } from './migrations.ts'

/** What reading something stored comes to. `what` says in a few words what is wrong, never what it holds. */
export type Decoded<T> =
  | { readonly kind: 'good'; readonly value: T }
  | { readonly kind: 'damaged'; readonly what: string }
  | { readonly kind: 'newer'; readonly format: number }

const documentShape = z.looseObject({ kind: z.enum(documentKinds), id: z.string(), format: z.int().min(1) })

const headShape = z.object({
  id: z.string(),
  kind: z.enum(documentKinds),
  name: z.string(),
  contacts: z.array(z.object({ channel: z.string(), address: z.string() })),
  nextDueAt: z.number().nullable(),
  openAlerts: z.number(),
  isLocked: z.boolean(),
  approvalsWaiting: z.number(),
  lastSessionAt: z.number().nullable(),
})

const named = z.looseObject({ id: z.string() })

const envelopeShape = z.object({
  format: z.literal(envelopeFormat),
  kind: z.enum(documentKinds),
  id: z.string(),
  document: documentShape,
  head: headShape,
  seen: z.array(z.string()),
  owed: z.array(z.object({ effect: named, attempts: z.int().min(0) })),
  refs: z.array(z.object({ effect: z.string(), ref: z.string() })),
  entries: z.array(named),
  volumes: z.int().min(0),
})

const formatShape = z.looseObject({ format: z.int() })

/** The format number of something stored, if it has one: asked first, since a newer shape may differ in all else. */
export function readFormat(value: unknown): number | null {
  const shaped = formatShape.safeParse(value)
  return shaped.success ? shaped.data.format : null
}

/** Checks what was stored under `id` and brings its document to the newest format. */
export function decodeEnvelope(value: unknown, id: DocumentId, steps: readonly Migration[]): Decoded<Envelope> {
  const format = readFormat(value)
  if (format !== null && format > envelopeFormat) return { kind: 'newer', format }
  const shaped = envelopeShape.safeParse(value)
  if (!shaped.success) return { kind: 'damaged', what: 'it lacks parts' }
  const { document, head, id: ownId, kind } = shaped.data
  const isOfId = [ownId, document.id, head.id].every((one) => one === id)
  if (!isOfId) return { kind: 'damaged', what: 'it holds a document of another name' }
  if (document.kind !== kind || head.kind !== kind) return { kind: 'damaged', what: 'its parts are of different kinds' }
  if (document.format > formatAfter(steps)) return { kind: 'newer', format: document.format }
  // The shapes above have checked every field that this room reads; the rest is the writer's, kept as it is.
  const envelope = value as Envelope
  const owed = envelope.owed.map((one) => ({ ...one, effect: migrateEffect(one.effect, document.format, steps) }))
  return { kind: 'good', value: { ...envelope, owed, document: migrateDocument(envelope.document as StoredRecord, steps) } }
}
