import type { Instant } from '#src/domain/identifier.ts'
import type { Clock } from '#src/ports/clock.ts'

interface Waiting {
  at: Instant
  readonly end: () => void
}

/** Lets everything run that needs no time to pass: an immediate comes after all promises that can settle. */
export function flush(): Promise<void> {
  return new Promise((resolve) => setImmediate(resolve))
}

/** Time that moves only when told. What is waited for ends in the order in which it falls due. */
export class ManualClock implements Clock {
  #now: Instant
  #waiting: Waiting[] = []

  constructor(now: Instant) {
    this.#now = now
  }

  now(): Instant {
    return this.#now
  }

  /** What is waited for now, in milliseconds from now, shortest first. */
  get waits(): readonly number[] {
    return this.#waiting.map(({ at }) => at - this.#now).sort((a, b) => a - b)
  }

  readonly wait = (ms: number, signal?: AbortSignal): Promise<void> => {
    if (!(ms >= 0 && ms < 2 ** 31)) throw new RangeError('a timer cannot wait for so long')
    return new Promise((resolve) => {
      if (signal?.aborted) return resolve()
      const end = (): void => {
        signal?.removeEventListener('abort', end)
        this.#waiting = this.#waiting.filter((one) => one !== waiting)
        resolve()
      }
      const waiting: Waiting = { at: this.#now + ms, end }
      this.#waiting.push(waiting)
      signal?.addEventListener('abort', end)
    })
  }

  async advance(ms: number): Promise<void> {
    const target = this.#now + ms
    await flush()
    for (let next = this.#next(target); next !== undefined; next = this.#next(target)) {
      this.#now = Math.max(this.#now, next.at)
      next.end()
      await flush()
    }
    this.#now = target
    await flush()
  }

  /** The clock is set, or the machine slept: the hands move, the timers do not. */
  jump(ms: number): void {
    this.#now += ms
    for (const waiting of this.#waiting) waiting.at += ms
  }

  #next(target: Instant): Waiting | undefined {
    const due = this.#waiting.filter(({ at }) => at <= target)
    return due.sort((a, b) => a.at - b.at)[0]
  }
}
