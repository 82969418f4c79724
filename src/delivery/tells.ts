import { brandAs, type DocumentId, type EventId } from '#src/domain/identifier.ts'
import type { Delivery as Mark } from '#src/ports/store.ts'
import type { Activity } from './activity.ts'
import type { Handler, Identified, TellEffect } from './handler.ts'
import { retryDelayMs } from './retry-delay.ts'
import type { Turns } from './turns.ts'
import type { Wait } from './wait.ts'

export interface TellParts<E extends Identified> {
  readonly handler: Handler<E>
  readonly turns: Turns<E>
  readonly activity: Activity
  readonly wait: Wait
  readonly halt: AbortSignal
  readonly settle: (document: DocumentId, effect: TellEffect, mark: Mark) => void
}

/** Takes what one document tells another to it, in order, without the teller's turn waiting for it. */
export class Tells<E extends Identified> {
  readonly #parts: TellParts<E>
  readonly #waiting = new Map<string, TellEffect[]>()

  constructor(parts: TellParts<E>) {
    this.#parts = parts
  }

  add(from: DocumentId, effect: TellEffect): void {
    const pair = `${from}\n${effect.to}`
    const waiting = this.#waiting.get(pair)
    if (waiting !== undefined) {
      waiting.push(effect)
      return
    }
    const effects = [effect]
    this.#waiting.set(pair, effects)
    void this.#parts.activity.run(async () => {
      for (let next = effects[0]; next !== undefined; next = effects[0]) {
        await this.#deliver(from, next)
        effects.shift()
      }
      this.#waiting.delete(pair)
    })
  }

  /** Ends without a mark only when halted: the tell is then still owed at the next start. */
  async #deliver(from: DocumentId, effect: TellEffect): Promise<void> {
    const { activity, halt, settle, wait } = this.#parts
    for (let failures = 1; !halt.aborted; failures += 1) {
      const mark = await this.#try(from, effect)
      if (mark !== null) return settle(from, effect, mark)
      await activity.rest(() => wait(retryDelayMs(failures, 'alert'), halt))
    }
  }

  /** Null: the store failed. */
  async #try(from: DocumentId, effect: TellEffect): Promise<Mark | null> {
    const { handler, turns } = this.#parts
    const event = turns.build(effect.to, brandAs<EventId>(effect.id), () => handler.receiveTell(from, effect))
    if (event === null) return { kind: 'abandoned' }
    try {
      const result = await turns.run(effect.to, event)
      return result.kind === 'parked' ? { kind: 'abandoned' } : { kind: 'delivered', ref: null }
    } catch {
      // `turns` has logged it; a tell may be an alert and is never dropped for a store that is away.
      return null
    }
  }
}
