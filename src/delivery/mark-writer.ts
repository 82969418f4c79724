import { brandAs, type DocumentId, type EffectId, type EventId } from '#src/domain/identifier.ts'
import type { Log } from '#src/ports/log.ts'
import type { Store } from '#src/ports/store.ts'
import type { Activity } from './activity.ts'
import { describeError } from './describe-error.ts'
import type { KeyedQueue } from './keyed-queue.ts'
import { recommit } from './recommit.ts'
import type { Wait } from './wait.ts'

export interface MarkWriterParts {
  readonly store: Store
  readonly documents: KeyedQueue
  readonly activity: Activity
  readonly wait: Wait
  readonly log: Log
  readonly halt: AbortSignal
}

/** Our choice: longer than most clients take for their next answer, which then carries the mark for nothing. */
const periodMs = 120_000

/**
 * A mark is durable no later than the document's next commit, and that may be days away: a kill in between would repeat
 * an old alert, and a tell older than the events that its document remembers. So a mark that no commit carried within
 * two to four minutes gets a write of its own, off the path of any answer.
 */
export class MarkWriter {
  readonly #parts: MarkWriterParts
  #young = new Map<DocumentId, EffectId>()
  #old = new Map<DocumentId, EffectId>()
  #isWaiting = false

  constructor(parts: MarkWriterParts) {
    this.#parts = parts
  }

  noteMark(document: DocumentId, effect: EffectId): void {
    this.#young.set(document, effect)
    if (!this.#isWaiting) this.#waitForPeriod()
  }

  noteCommit(document: DocumentId): void {
    this.#young.delete(document)
    this.#old.delete(document)
  }

  #waitForPeriod(): void {
    const { activity, halt, wait } = this.#parts
    this.#isWaiting = true
    void wait(periodMs, halt).then(async () => {
      if (halt.aborted) return
      await activity.run(() => this.#writeOld())
      if (this.#young.size + this.#old.size === 0) this.#isWaiting = false
      else this.#waitForPeriod()
    })
  }

  async #writeOld(): Promise<void> {
    const due = this.#old
    this.#old = this.#young
    this.#young = new Map()
    for (const [document, effect] of due) {
      if (!this.#parts.halt.aborted) await this.#write(document, effect)
    }
  }

  async #write(document: DocumentId, effect: EffectId): Promise<void> {
    const { documents, log, store } = this.#parts
    try {
      await documents.run(document, () => recommit(store, document, brandAs<EventId>(`marked:${effect}`)))
    } catch (error) {
      log.warn('mark-failed', { document, ...describeError(error) })
      if (!this.#young.has(document)) this.#young.set(document, effect)
    }
  }
}
