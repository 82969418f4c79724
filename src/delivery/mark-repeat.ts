import { brandAs, type DocumentId, type EffectId, type EventId } from '#src/domain/identifier.ts'
import type { Commit, Store, StoredDocument } from '#src/ports/store.ts'

/**
 * Notes durably, before it happens, that an effect of an earlier run is sent once more; false if that was noted before.
 * The note is an event that changes nothing: the mark of an attempt alone is not durable before the next commit. To be
 * run in the document's queue, so that the head is still the document's.
 */
export async function markRepeat(store: Store, document: DocumentId, effect: EffectId): Promise<boolean> {
  const head = (await store.heads()).find((one) => one.id === document)
  if (head === undefined) return false
  const event = brandAs<EventId>(`again:${effect}`)
  const { applied } = await store.apply(document, event, (stored: StoredDocument | null): Commit | null =>
    stored === null ? null : { document: stored, head, entries: [], effects: [], closesVolume: false },
  )
  return applied
}
