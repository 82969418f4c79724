import type { DocumentId, EffectId } from '#src/domain/identifier.ts'
import type { Owed } from '#src/ports/store.ts'
import type { Connections } from './connections.ts'
import { writeAllMarks } from './mark-statements.ts'
import type { KnownRows } from './known-rows.ts'
import type { Mark, Marks } from './marks.ts'
import type { Rows } from './rows.ts'

export interface MarkFlusherParts {
  readonly connections: Connections
  readonly rows: Rows
  readonly marks: Marks
  readonly known: KnownRows
  readonly everyMs: number
  readonly onTrouble: () => void
}

/**
 * Writes the marks that no commit has carried, those of all documents at once, and knows what was handed to this process
 * to be sent: if a document owes more than that, another process has added to it and left it to us.
 */
export class MarkFlusher {
  onMore: (document: DocumentId) => Promise<void> = async () => {}
  readonly #parts: MarkFlusherParts
  readonly #handed = new Map<DocumentId, Set<EffectId>>()
  #timer: NodeJS.Timeout | null = null
  #flushing: Promise<void> = Promise.resolve()
  #isEnded = false

  constructor(parts: MarkFlusherParts) {
    this.#parts = parts
  }

  arm(): void {
    if (this.#timer !== null || this.#isEnded) return
    this.#timer = setTimeout(() => {
      this.#timer = null
      void this.flush().catch(() => {
        this.#parts.onTrouble()
        this.arm()
      })
    }, this.#parts.everyMs).unref()
  }

  noteHanded(owed: readonly Owed[]): void {
    for (const { document, effect } of owed) {
      const handed = this.#handed.get(document) ?? new Set<EffectId>()
      this.#handed.set(document, handed.add(effect.id))
    }
  }

  noteWritten(document: DocumentId, marks: readonly Mark[]): void {
    const handed = this.#handed.get(document)
    for (const { effect, isOver } of marks) if (isOver) handed?.delete(effect)
    if (handed?.size === 0) this.#handed.delete(document)
  }

  forget(document: DocumentId): void {
    this.#handed.delete(document)
  }

  /** One at a time; rejects if they could not be written, and they then wait for the next. */
  flush(): Promise<void> {
    this.#flushing = this.#flushing.catch(() => {}).then(() => this.#flush())
    return this.#flushing
  }

  async end(): Promise<void> {
    this.#isEnded = true
    if (this.#timer !== null) clearTimeout(this.#timer)
    await this.flush()
  }

  async #flush(): Promise<void> {
    const { connections, rows, marks, known } = this.#parts
    const taken = new Map(marks.documents.map((document) => [document, marks.take(document)]))
    if (taken.size === 0) return
    try {
      const flushed = await connections.transaction((run, queue) => writeAllMarks(run, queue, rows, taken))
      for (const [document, written] of taken) this.noteWritten(document, written)
      for (const { id, owing, sender } of flushed) {
        known.amend(id, ({ owed }) => ({ sender, owed: owed.filter((effect) => !isOver(taken.get(id), effect)) }))
        if (owing > (this.#handed.get(id)?.size ?? 0)) void this.onMore(id).catch(() => this.#parts.onTrouble())
      }
    } catch (error) {
      for (const [document, written] of taken) marks.putBack(document, written)
      throw error
    }
  }
}

function isOver(marks: readonly Mark[] | undefined, effect: EffectId): boolean {
  return marks?.some((mark) => mark.isOver && mark.effect === effect) === true
}
