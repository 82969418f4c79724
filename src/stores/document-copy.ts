import type { Entry } from '#src/domain/entry.ts'
import type { DocumentId } from '#src/domain/identifier.ts'
import type { DocumentCopy } from '#src/ports/archive.ts'
import type { Migration } from '#src/ports/migration.ts'
import { envelopeFormat, openEntriesMaxBytes, bytesOfEntries } from './envelope.ts'
import type { Envelope } from './envelope.ts'
import { decodeEnvelope } from './stored-envelope.ts'
import type { Decoded } from './stored-envelope.ts'

/** `entries` is the whole record, the volumes before the envelope's own. */
export function copyOf(envelope: Envelope, entries: readonly Entry[]): DocumentCopy {
  const { document, head, seen, owed, refs } = envelope
  return { document, head, seen, owed, refs, entries }
}

/** What a copy lies as: a record too long to be rewritten with every answer goes into one volume. */
export function envelopeOf(copy: DocumentCopy): { readonly envelope: Envelope; readonly volume: readonly Entry[] | null } {
  const { document, head, seen, owed, refs, entries } = copy
  const closes = bytesOfEntries(entries) > openEntriesMaxBytes
  const { kind, id } = document
  const envelope: Envelope = { format: envelopeFormat, kind, id, document, head, seen, owed, refs, entries: closes ? [] : entries, volumes: closes ? 1 : 0 }
  return { envelope, volume: closes ? entries : null }
}

/** Checks what was kept as a copy and brings its document to the newest format, as a store does with its own. */
export function decodeCopy(value: unknown, steps: readonly Migration[]): Decoded<DocumentCopy> {
  const id = readId(value)
  const decoded = decodeEnvelope({ ...(value as object), format: envelopeFormat, kind: readKind(value), id, volumes: 0 }, id as DocumentId, steps)
  return decoded.kind === 'good' ? { kind: 'good', value: copyOf(decoded.value, decoded.value.entries) } : decoded
}

function readId(value: unknown): unknown {
  return documentIn(value)?.['id']
}

function readKind(value: unknown): unknown {
  return documentIn(value)?.['kind']
}

function documentIn(value: unknown): Readonly<Record<string, unknown>> | undefined {
  return (value as { readonly document?: Readonly<Record<string, unknown>> } | null)?.document
}
