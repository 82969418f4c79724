// Long polls: https://core.telegram.org/bots/api#getupdates.
import type { Clock } from '#src/ports/clock.ts'
import { ok, Refused, type Answer } from './answer.ts'
import type { ParametersOf } from './parameters.ts'
import type { UpdateStore } from './update-store.ts'

/** From tdlib/telegram-bot-api: a poll is held for at most 50 s. */
const longestPollSeconds = 50

export interface PollDesk {
  /** Resolves when there is something, the time is over, or a newer poll ends this one with 409. */
  poll(request: ParametersOf<'getUpdates'>, gone: AbortSignal): Promise<Answer>
  /** New updates have come: who waits gets them. */
  wake(): void
  /** The webhook was set: who waits is told. */
  end(description: string): void
  readonly isHeld: boolean
}

export interface PollDeskParts {
  readonly updates: UpdateStore
  readonly clock: Clock
  readonly wait: (ms: number, signal?: AbortSignal) => Promise<void>
}

interface Held {
  readonly limit: number
  readonly answer: (answer: Answer) => void
  readonly refuse: (refused: Refused) => void
}

export function createPollDesk({ updates, clock, wait }: PollDeskParts): PollDesk {
  let held: Held | null = null
  const batch = (limit: number): readonly unknown[] => updates.pending(clock.now()).slice(0, limit).map(({ update }) => update)

  function end(description: string): void {
    held?.refuse(new Refused(409, description))
    held = null
  }

  return {
    get isHeld() {
      return held !== null
    },
    end,
    wake() {
      const waiting = held
      if (waiting === null) return
      const found = batch(waiting.limit)
      if (found.length === 0) return
      held = null
      waiting.answer(ok(found))
    },
    async poll({ offset, limit = 100, timeout = 0, allowed_updates: allowed }, gone) {
      end('Conflict: terminated by other getUpdates request; make sure that only one bot instance is running')
      if (allowed !== undefined) updates.allow(allowed)
      if (offset !== undefined) updates.confirm(offset)
      const found = batch(limit)
      if (found.length > 0 || timeout === 0) return ok(found)
      return new Promise<Answer>((resolve, reject) => {
        const over = new AbortController()
        const own: Held = {
          limit,
          answer: (answer) => {
            over.abort()
            resolve(answer)
          },
          refuse: (refused) => {
            over.abort()
            reject(refused)
          },
        }
        held = own
        const leave = (): void => {
          if (held !== own) return
          held = null
          own.answer(ok([]))
        }
        gone.addEventListener('abort', leave, { once: true })
        void wait(Math.min(timeout, longestPollSeconds) * 1000, over.signal).then(leave)
      })
    },
  }
}
