import type { DocumentId, EffectId, EventId } from '#src/domain/identifier.ts'
import type { Clock } from '#src/ports/clock.ts'
import type { Log } from '#src/ports/log.ts'
import { StoreError, type Commit, type Head, type Owed, type Store, type StoredDocument } from '#src/ports/store.ts'
import { describeError } from './describe-error.ts'
import type { Handler, Identified, ReplyOnly, SendEffect, StepResult } from './handler.ts'
import type { KeyedQueue } from './keyed-queue.ts'
import { RecentIds } from './recent-ids.ts'

export type TurnResult =
  | { readonly kind: 'committed'; readonly head: Head }
  /** Nothing to commit. */
  | { readonly kind: 'unchanged' }
  /** The event was there before; the step was not asked. */
  | { readonly kind: 'seen' }
  /** Our own mistake: the event is dropped. */
  | { readonly kind: 'parked' }

/** Told of an event that was dropped because of our own mistake; the name is the error's. */
export type OnParked = (document: DocumentId | null, event: EventId, errorName: string) => void

export interface TurnParts<E extends Identified> {
  readonly store: Store
  readonly clock: Clock
  readonly handler: Handler<E>
  readonly log: Log
  readonly documents: KeyedQueue
  readonly onParked: OnParked
  /**
   * Takes what the document owes; what is on its way already is known to the taker. What this turn has added was sent by
   * nobody yet; anything else that is not on its way here may have been, by an earlier process or another.
   */
  readonly take: (owed: readonly Owed[], added: ReadonlySet<EffectId>) => void
  readonly reply: (effects: readonly SendEffect[]) => void
  readonly committed: (document: DocumentId) => void
}

type Decided =
  | { readonly kind: 'seen' }
  | { readonly kind: 'decided'; readonly result: StepResult }
  | { readonly kind: 'failed'; readonly error: unknown }

/** Our choice: enough for what a network repeats at once; a repeat after that costs one more harmless reply. */
const rememberedReplies = 1000

/** Takes one event at a time to a document's step and commits what it returns. */
export class Turns<E extends Identified> {
  readonly #parts: TurnParts<E>
  readonly #replied = new RecentIds<EventId>(rememberedReplies)

  constructor(parts: TurnParts<E>) {
    this.#parts = parts
  }

  /** Rejects only if the store failed twice. */
  run(document: DocumentId, event: E, isReported = false): Promise<TurnResult> {
    return this.#parts.documents.run(document, async () => {
      if (this.#replied.has(event.id)) return { kind: 'seen' }
      try {
        return await this.#apply(document, event)
      } catch (error) {
        if (error instanceof StoreError) throw error
        if (!isReported) this.#park(document, event.id, error)
        return { kind: 'parked' }
      }
    })
  }

  /** An event of the handler's making, or null, the mistake reported, if it throws. */
  build<T>(document: DocumentId | null, event: EventId, make: () => T): T | null {
    try {
      return make()
    } catch (error) {
      this.#park(document, event, error)
      return null
    }
  }

  #park(document: DocumentId | null, event: EventId, error: unknown): void {
    const described = describeError(error)
    this.#parts.log.error('event-parked', { document: document ?? 'none', ...described })
    this.#parts.onParked(document, event, described.error)
  }

  async #apply(document: DocumentId, event: E): Promise<TurnResult> {
    const { decided, owed } = await this.#applyOnceMore(document, event)
    // Also after a repeat: a commit whose confirmation was lost owes effects that nobody has taken yet.
    this.#parts.take(owed, addedBy(decided))
    if (decided.kind === 'failed') throw decided.error
    if (decided.kind === 'seen') return decided
    const { result } = decided
    if (result === null) return { kind: 'unchanged' }
    if (isReplyOnly(result)) {
      this.#replied.add(event.id)
      this.#parts.reply(result.effects)
      return { kind: 'unchanged' }
    }
    this.#parts.committed(document)
    return { kind: 'committed', head: result.head }
  }

  async #applyOnceMore(document: DocumentId, event: E): Promise<{ decided: Decided; owed: readonly Owed[] }> {
    try {
      return await this.#applyOnce(document, event)
    } catch (error) {
      if (!(error instanceof StoreError)) throw error
      this.#parts.log.warn('store-failed', { document, code: error.code })
      return this.#applyOnce(document, event)
    }
  }

  async #applyOnce(document: DocumentId, event: E): Promise<{ decided: Decided; owed: readonly Owed[] }> {
    const asked: { decided: Decided } = { decided: { kind: 'seen' } }
    const { applied, owed } = await this.#parts.store.apply(document, event.id, (stored) => {
      asked.decided = this.#decide(document, stored, event)
      return readCommit(asked.decided)
    })
    // Another process may have taken it in after we had decided.
    const isSeen = !applied && readCommit(asked.decided) !== null
    return { decided: isSeen ? { kind: 'seen' } : asked.decided, owed }
  }

  /** A throw of the step is kept from the store, where it could pass for a failure of the store's. */
  #decide(document: DocumentId, stored: StoredDocument | null, event: E): Decided {
    try {
      return { kind: 'decided', result: this.#parts.handler.step(stored, event, this.#parts.clock.now(), document) }
    } catch (error) {
      return { kind: 'failed', error }
    }
  }
}

function addedBy(decided: Decided): ReadonlySet<EffectId> {
  return new Set(readCommit(decided)?.effects.map(({ id }) => id))
}

function readCommit(decided: Decided): Commit | null {
  if (decided.kind !== 'decided' || decided.result === null) return null
  return isReplyOnly(decided.result) ? null : decided.result
}

function isReplyOnly(result: Commit | ReplyOnly): result is ReplyOnly {
  return 'kind' in result && result.kind === 'reply-only'
}
