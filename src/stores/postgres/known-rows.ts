import type { DocumentId, EffectId, EventId } from '#src/domain/identifier.ts'
import type { StoredDocument } from '#src/ports/store.ts'

/**
 * A document’s row as this process last wrote it. Whoever remembers it can answer without reading first: the write
 * says what it takes for granted, and where something else stands by now it writes nothing.
 */
export interface KnownRow {
  readonly document: StoredDocument
  /** Those taken in that this process knows of, oldest first. With another document the last one or one of the numbers is another. */
  readonly events: readonly EventId[]
  /** The last that was given. */
  readonly entrySeq: number
  readonly outboxSeq: number
  readonly contacts: readonly string[]
  /** Effects of the outbox, oldest first. */
  readonly owed: readonly EffectId[]
  readonly sender: string | null
  readonly wakeAt: number | null
}

/** Our choice: those of whoever is spoken with within a few minutes, some 20 MB. */
const rememberedRows = 256

/** Of each document the last; what is remembered may be outdated at any time. */
export class KnownRows {
  /** Least recently noted first. */
  readonly #rows = new Map<DocumentId, KnownRow>()

  find(id: DocumentId): KnownRow | null {
    return this.#rows.get(id) ?? null
  }

  note(id: DocumentId, row: KnownRow): void {
    this.#rows.delete(id)
    this.#rows.set(id, row)
    const [eldest] = this.#rows.keys()
    if (this.#rows.size > rememberedRows && eldest !== undefined) this.#rows.delete(eldest)
  }

  /** Part of the row was written by itself. */
  amend(id: DocumentId, change: (row: KnownRow) => Partial<KnownRow>): void {
    const row = this.find(id)
    if (row !== null) this.#rows.set(id, { ...row, ...change(row) })
  }

  forget(id: DocumentId): void {
    this.#rows.delete(id)
  }
}
