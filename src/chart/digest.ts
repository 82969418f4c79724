// The only library call of this room that is not ours or a pure package's: a digest is arithmetic, not I/O.
import { createHash } from 'node:crypto'
import { brandAs, type DocumentId, type EventId } from '#src/domain/identifier.ts'

const idLength = 12

/** SHA-256, hexadecimal. Codes and tokens are stored and compared as digests only. */
export function digestOf(secret: string): string {
  return createHash('sha256').update(secret, 'utf8').digest('hex')
}

/** A document's id follows from the event that makes it. */
export function documentIdFrom(kind: 'chart' | 'desk', event: EventId): DocumentId {
  return brandAs<DocumentId>(`${kind}-${digestOf(event).slice(0, idLength)}`)
}
