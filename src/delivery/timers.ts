import { brandAs, type DocumentId, type EventId, type Instant } from '#src/domain/identifier.ts'
import type { Clock } from '#src/ports/clock.ts'
import type { Log } from '#src/ports/log.ts'
import type { Head, Store } from '#src/ports/store.ts'
import type { Activity } from './activity.ts'
import { describeError } from './describe-error.ts'
import type { Handler, Identified } from './handler.ts'
import type { TurnResult, Turns } from './turns.ts'
import type { Wait } from './wait.ts'

export interface TimerParts<E extends Identified> {
  readonly store: Store
  readonly clock: Clock
  readonly handler: Handler<E>
  readonly turns: Turns<E>
  readonly activity: Activity
  readonly wait: Wait
  readonly log: Log
}

/** A document whose timer stayed due although it was woken. */
interface Stuck {
  readonly dueAt: Instant
  readonly until: Instant
}

/**
 * Our choice, well under the port's hour: timers stand still while a machine sleeps, and node's fire at once beyond
 * 2^31-1 ms (24.8 days).
 */
const longestSleepMs = 10 * 60_000
const stuckForMs = 60_000
/** Wake-ups of one document in a row; a document that sets ever new timers in the past is our own mistake. */
const mostWakesRunning = 100

/** Wakes documents whose timers are due. A wake-up is a hint: what is due is the document's own business. */
export class Timers<E extends Identified> {
  readonly #parts: TimerParts<E>
  readonly #waking = new Map<DocumentId, Promise<void>>()
  readonly #stuck = new Map<DocumentId, Stuck>()
  #sleep: AbortController | null = null
  #isRunning = false
  #isScanning = false
  #isDirty = false

  constructor(parts: TimerParts<E>) {
    this.#parts = parts
  }

  async start(): Promise<void> {
    this.#isRunning = true
    await this.runDue()
  }

  stop(): void {
    this.#isRunning = false
    this.#sleep?.abort()
  }

  /** Reads anew when to wake up next; to be called after every commit. */
  arm(): void {
    if (!this.#isRunning) return
    this.#isDirty = true
    if (!this.#isScanning) void this.#parts.activity.run(() => this.#scan())
  }

  async runDue(): Promise<void> {
    await this.#wakeDue()
    await Promise.all(this.#waking.values())
    this.arm()
  }

  async #scan(): Promise<void> {
    this.#isScanning = true
    this.#sleep?.abort()
    let sleepMs = longestSleepMs
    try {
      while (this.#isDirty) {
        this.#isDirty = false
        await this.#wakeDue()
        sleepMs = await this.#readSleepMs()
      }
    } catch (error) {
      this.#parts.log.error('timers-failed', describeError(error))
      sleepMs = stuckForMs
    }
    this.#isScanning = false
    this.#sleepFor(sleepMs)
  }

  #sleepFor(ms: number): void {
    if (!this.#isRunning) return
    const sleep = new AbortController()
    this.#sleep = sleep
    void this.#parts.wait(ms, sleep.signal).then(() => {
      if (!sleep.signal.aborted) this.arm()
    })
  }

  async #readSleepMs(): Promise<number> {
    const now = this.#parts.clock.now()
    const earliest = await this.#parts.store.nextDueAt()
    if (earliest === null) return longestSleepMs
    if (earliest > now) return Math.min(earliest - now, longestSleepMs)
    // What is due and not woken hides the others: look past it.
    const heads = await this.#parts.store.due(now + longestSleepMs)
    const times = heads.flatMap((head) => this.#nextWakeOf(head) ?? [])
    return Math.max(0, Math.min(...times, now + longestSleepMs) - now)
  }

  /** Null: it is being woken, and will be looked at again afterwards. */
  #nextWakeOf(head: Head): Instant | null {
    if (this.#waking.has(head.id)) return null
    const stuck = this.#stuck.get(head.id)
    return stuck !== undefined && stuck.dueAt === head.nextDueAt ? stuck.until : head.nextDueAt
  }

  async #wakeDue(): Promise<void> {
    const now = this.#parts.clock.now()
    const earliest = await this.#parts.store.nextDueAt()
    if (earliest === null || earliest > now) return
    for (const head of await this.#parts.store.due(now)) {
      const wakeAt = this.#nextWakeOf(head)
      if (wakeAt === null || wakeAt > now || head.nextDueAt === null) continue
      const waking = this.#parts.activity.run(() => this.#wake(head.id, head.nextDueAt as Instant))
      this.#waking.set(head.id, waking)
    }
  }

  /** Until nothing of the document is due. Never rejects. */
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
      this.#holdBack(document, dueAt)
    } finally {
      this.#waking.delete(document)
      this.arm()
    }
  }

  /** What is due of the document afterwards, if anything. */
  async #wakeOnce(document: DocumentId, dueAt: Instant): Promise<Instant | null> {
    const result = await this.#runWake(document, dueAt)
    const now = this.#parts.clock.now()
    if (result.kind === 'committed') return onlyDue(result.head, now)
    const heads = await this.#parts.store.due(now)
    return heads.find((head) => head.id === document)?.nextDueAt ?? null
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
