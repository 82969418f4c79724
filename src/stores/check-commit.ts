import type { DocumentId } from '#src/domain/identifier.ts'
import type { Commit } from '#src/ports/store.ts'
import type { Envelope } from './envelope.ts'

/**
 * Throws on a commit that could not be read back as what it is: always a mistake of ours. The same for every store, so
 * that what passes the one in memory passes on disk.
 */
export function checkCommit(id: DocumentId, before: Pick<Envelope, 'kind'> | null, commit: Commit, format: number): void {
  const { document, head } = commit
  if (document.id !== id || head.id !== id) throw new TypeError('the commit is for another document')
  if (head.kind !== document.kind) throw new TypeError('the head is of another kind than the document')
  if (before !== null && before.kind !== document.kind) throw new TypeError('a document never changes its kind')
  if (document.format !== format) throw new TypeError(`the document must have format ${format}`)
}
