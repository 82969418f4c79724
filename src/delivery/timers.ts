import type { Clock } from '#src/ports/clock.ts'
import type { Log } from '#src/ports/log.ts'
import type { Store } from '#src/ports/store.ts'
import type { Activity } from './activity.ts'
import { describeError } from './describe-error.ts'
import type { Identified } from './handler.ts'
import type { Wait } from './wait.ts'
import { stuckForMs, type Waker } from './waker.ts'

export interface TimerParts<E extends Identified> {
  readonly store: Store
  readonly clock: Clock
  readonly waker: Waker<E>
  readonly activity: Activity
  readonly wait: Wait
  readonly log: Log
}

/**
 * Our choice, well under the port's hour: timers stand still while a machine sleeps, and node's fire at once beyond
 * 2^31-1 ms (24.8 days).
 */
const longestSleepMs = 10 * 60_000

/** Looks itself for what is due, and sleeps until then: for a store that one process has whole. */
export class Timers<E extends Identified> {
  readonly #parts: TimerParts<E>
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
    await this.#parts.waker.settled()
    this.arm()
  }

  async #scan(): Promise<void> {
    this.#isScanning = true
    // A reason of its own, since an error with a stack would be made for every commit.
    this.#sleep?.abort('scanning')
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
    const times = heads.flatMap((head) => this.#parts.waker.nextWakeOf(head) ?? [])
    return Math.max(0, Math.min(...times, now + longestSleepMs) - now)
  }

  async #wakeDue(): Promise<void> {
    const now = this.#parts.clock.now()
    const earliest = await this.#parts.store.nextDueAt()
    if (earliest === null || earliest > now) return
    for (const head of await this.#parts.store.due(now)) void this.#parts.waker.wake(head)?.then(() => this.arm())
  }
}
