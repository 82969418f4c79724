import type { DocumentId, EventId } from '#src/domain/identifier.ts'
import type { Commit, Store, StoredDocument } from '#src/ports/store.ts'

/**
 * Commits a document as it stands, so that its marks and the event's id become durable; false if the event was there
 * before. To be run in the document's queue, so that the head read here is still the document's.
 */
export async function recommit(store: Store, document: DocumentId, event: EventId): Promise<boolean> {
  const head = await store.head(document)
  if (head === null) return false
  const { applied } = await store.apply(document, event, (stored: StoredDocument | null): Commit | null =>
    stored === null ? null : { document: stored, head, entries: [], effects: [], closesVolume: false },
  )
  return applied
}
