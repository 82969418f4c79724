// The only library calls of this room that are not ours or a pure package's: a digest is arithmetic, not I/O.
import { createHash, timingSafeEqual } from 'node:crypto'
import { brandAs, type DocumentId, type EventId } from '#src/domain/identifier.ts'

const idLength = 12

/** SHA-256, hexadecimal. Codes and tokens are stored and compared as digests only. */
export function digestOf(secret: string): string {
  return createHash('sha256').update(secret, 'utf8').digest('hex')
}

/**
 * Compared in a time that does not depend on where the two differ, so that no answer's delay tells how much of a guess was
 * right. Both are digested once more, which gives the equal lengths that `timingSafeEqual` asks for.
 */
export function isSameDigest(one: string, other: string): boolean {
  return timingSafeEqual(createHash('sha256').update(one, 'utf8').digest(), createHash('sha256').update(other, 'utf8').digest())
}

/** A document's id follows from the event that makes it. */
export function documentIdFrom(kind: 'chart' | 'desk', event: EventId): DocumentId {
  return brandAs<DocumentId>(`${kind}-${digestOf(event).slice(0, idLength)}`)
}
