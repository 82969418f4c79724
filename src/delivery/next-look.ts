import type { Instant } from '#src/domain/identifier.ts'
import type { Urgency } from '#src/domain/message.ts'
import type { Clock } from '#src/ports/clock.ts'
import type { Activity } from './activity.ts'
import type { Wait } from './wait.ts'

export interface NextLookParts {
  readonly activity: Activity
  readonly clock: Clock
  readonly wait: Wait
}

/** A stop waits for the turn of an alert, which is soon; a crowd of others stays owed. */
export function passTime({ activity, wait }: NextLookParts, urgency: Urgency, ms: number, signal: AbortSignal): Promise<void> {
  const pass = (): Promise<void> => wait(ms, signal)
  return urgency === 'alert' ? activity.run(pass) : pass()
}

/** While a network's pace lets nobody go: when to look again, one timer for everybody who waits. */
export class NextLook {
  readonly #parts: NextLookParts
  readonly #look: () => void
  #next: { readonly at: Instant; readonly isOver: AbortController } | null = null

  constructor(parts: NextLookParts, look: () => void) {
    this.#parts = parts
    this.#look = look
  }

  /** `urgency` is that of whoever goes next, before whom nobody may go. */
  after(urgency: Urgency, ms: number): void {
    const at = this.#parts.clock.now() + ms
    if (this.#next !== null && this.#next.at <= at && urgency !== 'alert') return
    this.end()
    const isOver = new AbortController()
    this.#next = { at, isOver }
    void passTime(this.#parts, urgency, ms, isOver.signal).then(() => {
      if (isOver.signal.aborted) return
      this.#next = null
      this.#look()
    })
  }

  end(): void {
    // A reason of its own, since an error with a stack would be made for it.
    this.#next?.isOver.abort('over')
    this.#next = null
  }
}
