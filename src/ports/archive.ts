import type { Entry } from '#src/domain/entry.ts'
import type { EffectId, EventId } from '#src/domain/identifier.ts'
import type { Effect } from '#src/domain/message.ts'
import type { Head, StoredDocument } from './store.ts'

/** Everything that a store holds of one document. */
export interface DocumentCopy {
  readonly document: StoredDocument
  readonly head: Head
  readonly seen: readonly EventId[]
  readonly owed: readonly { readonly effect: Effect; readonly attempts: number }[]
  readonly refs: readonly { readonly effect: EffectId; readonly ref: string }[]
  /** The whole record, oldest first. */
  readonly entries: readonly Entry[]
}

export interface Archive {
  /** Every document, by id, as of one instant. Nothing is changed; may be asked beside a running process. */
  copyOut(): AsyncIterable<DocumentCopy>
  /** Puts a copy in exactly as it is; rejects where a document of that id stands already. */
  copyIn(copy: DocumentCopy): Promise<void>
}
