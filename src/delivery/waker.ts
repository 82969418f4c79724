import { brandAs, type DocumentId, type EventId, type Instant } from '#src/domain/identifier.ts'
import type { Clock } from '#src/ports/clock.ts'
import type { Log } from '#src/ports/log.ts'
import { StoreError, type Head, type Store } from '#src/ports/store.ts'
import type { Activity } from './activity.ts'
import { describeError } from './describe-error.ts'
import type { Handler, Identified } from './handler.ts'
import type { TurnResult, Turns } from './turns.ts'

export interface WakerParts<E extends Identified> {
  readonly store: Store
  readonly clock: Clock
  readonly handler: Handler<E>
  readonly turns: Turns<E>
  readonly activity: Activity
  readonly log: Log
}

/** A document whose timer stayed due although it was woken. */
interface Stuck {
  readonly dueAt: Instant
  readonly until: Instant
}

export const stuckForMs = 60_000
/** A store that was away is back within seconds as a rule, and what is due may be an alert. */
const afterStoreFailureMs = 5_000
/** Wake-ups of one document in a row; a document that sets ever new timers in the past is our own mistake. */
const mostWakesRunning = 100

/** Wakes one document until nothing of it is due. A wake-up is a hint: what is due is the document's own business. */
export class Waker<E extends Identified> {
  readonly #parts: WakerParts<E>
  readonly #waking = new Map<DocumentId, Promise<void>>()
  readonly #stuck = new Map<DocumentId, Stuck>()

  constructor(parts: WakerParts<E>) {
    this.#parts = parts
  }

  /** When the document is to be woken next; null: never, or it is being woken and will be looked at again afterwards. */
  nextWakeOf(head: Head): Instant | null {
    if (this.#waking.has(head.id)) return null
    const stuck = this.#stuck.get(head.id)
    return stuck !== undefined && stuck.dueAt === head.nextDueAt ? stuck.until : head.nextDueAt
  }

  /**
   * Begins to wake it if something of it is due now, else gives null. Resolves when nothing is due any more or it is held
   * back; never rejects.
   */
  wake(head: Head): Promise<void> | null {
    const wakeAt = this.nextWakeOf(head)
    if (wakeAt === null || wakeAt > this.#parts.clock.now() || head.nextDueAt === null) return null
    const dueAt = head.nextDueAt
    const waking = this.#parts.activity.run(() => this.#wake(head.id, dueAt))
    this.#waking.set(head.id, waking)
    return waking
  }

  async settled(): Promise<void> {
    await Promise.all(this.#waking.values())
  }

  async #wake(document: DocumentId, firstDueAt: Instant): Promise<void> {
    let dueAt = firstDueAt
    try {
      for (let wakes = 0; wakes < mostWakesRunning; wakes += 1) {
        const next = await this.#wakeOnce(document, dueAt)
        if (next === null) return void this.#stuck.delete(document)
        if (next === dueAt) break
        dueAt = next
      }
      this.#holdBack(document, dueAt)
    } catch (error) {
      this.#parts.log.error('wake-failed', { document, ...describeError(error) })
      this.#stuck.set(document, { dueAt, until: this.#parts.clock.now() + (error instanceof StoreError ? afterStoreFailureMs : stuckForMs) })
    } finally {
      this.#waking.delete(document)
    }
  }

  /** What is due of the document afterwards, if anything. */
  async #wakeOnce(document: DocumentId, dueAt: Instant): Promise<Instant | null> {
    const result = await this.#runWake(document, dueAt)
    const head = result.kind === 'committed' ? result.head : await this.#parts.store.head(document)
    return head === null ? null : onlyDue(head, this.#parts.clock.now())
  }

  /**
   * The same instant may rightly wake a document twice (two timers at one instant), while effects take their ids from
   * the event's. So each wake that was committed has an id of its own: the first free number. A repeat after a crash
   * does no harm, since a timer that fired is gone from the document.
   */
  async #runWake(document: DocumentId, dueAt: Instant): Promise<TurnResult> {
    const isReported = this.#stuck.get(document)?.dueAt === dueAt
    for (let number = 1; ; number += 1) {
      const suffix = number === 1 ? '' : `:${number}`
      const event = this.#parts.handler.wake(brandAs<EventId>(`wake:${document}:${dueAt}${suffix}`))
      const result = await this.#parts.turns.run(document, event, isReported)
      if (result.kind !== 'seen') return result
    }
  }

  #holdBack(document: DocumentId, dueAt: Instant): void {
    if (this.#stuck.get(document)?.dueAt !== dueAt) this.#parts.log.warn('timer-stuck', { document })
    this.#stuck.set(document, { dueAt, until: this.#parts.clock.now() + stuckForMs })
  }
}

function onlyDue(head: Head, now: Instant): Instant | null {
  return head.nextDueAt !== null && head.nextDueAt <= now ? head.nextDueAt : null
}
