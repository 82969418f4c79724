import type { Clock } from '#src/ports/clock.ts'
import type { Log } from '#src/ports/log.ts'
import type { Activity } from './activity.ts'
import { describeError } from './describe-error.ts'
import { readUrgency, type Lane, type Pending } from './lane.ts'
import type { Wait } from './wait.ts'

export interface DelayWatchParts {
  readonly activity: Activity
  readonly clock: Clock
  readonly wait: Wait
  readonly log: Log
  readonly halt: AbortSignal
  readonly noteDelay: (pending: Pending) => Promise<void>
}

/** Our choice: nobody waits longer for somebody else to be asked. */
const alertWaitsMs = 60_000
const afterStoreFailureMs = 1000

/** Notices an alert that its network has not taken within a minute, so that somebody else hears of it meanwhile. */
export class DelayWatch {
  readonly #parts: DelayWatchParts
  readonly #watched = new WeakSet<Pending>()

  constructor(parts: DelayWatchParts) {
    this.#parts = parts
  }

  /** To be called while the lane is held back; every alert in it is watched once. */
  watch(lane: Lane): void {
    for (const pending of lane.pendings) {
      if (readUrgency(pending.effect) !== 'alert' || this.#watched.has(pending)) continue
      this.#watched.add(pending)
      void this.#waitFor(lane, pending)
    }
  }

  async #waitFor(lane: Lane, pending: Pending): Promise<void> {
    const { activity, clock, halt, log, wait } = this.#parts
    await wait(Math.max(0, pending.takenAt + alertWaitsMs - clock.now()), halt)
    for (let isNoted = false; !isNoted && !halt.aborted && lane.pendings.includes(pending); ) {
      log.warn('alert-delayed', { channel: lane.contact.channel, document: pending.document ?? 'none' })
      isNoted = await activity.run(() => this.#note(pending))
      // As with a tell: what may be an alert is not dropped for a store that is away.
      if (!isNoted) await wait(afterStoreFailureMs, halt)
    }
  }

  async #note(pending: Pending): Promise<boolean> {
    try {
      await this.#parts.noteDelay(pending)
      return true
    } catch (error) {
      this.#parts.log.error('delay-not-noted', describeError(error))
      return false
    }
  }
}
