import { brandAs, type DocumentId, type EffectId, type EventId } from '#src/domain/identifier.ts'
import type { Channel, SendResult } from '#src/ports/channel.ts'
import type { Clock } from '#src/ports/clock.ts'
import type { Log } from '#src/ports/log.ts'
import type { Store } from '#src/ports/store.ts'
import { describeError } from './describe-error.ts'
import type { UnsentReason } from './handler.ts'
import type { KeyedQueue } from './keyed-queue.ts'
import { readUrgency, type Pending, type Sendable } from './lane.ts'
import { recommit } from './recommit.ts'

/** `dropped`: not sent, and nobody needs to know. `late` and `unsure`: a reminder that is not sent, see `UnsentReason`. */
export type Attempt = SendResult | { readonly kind: 'dropped' | UnsentReason }

export interface AttemptParts {
  readonly store: Store
  readonly clock: Clock
  readonly log: Log
  readonly documents: KeyedQueue
  /** The marks of each document, in order. */
  readonly marks: KeyedQueue
  readonly isWithoutNetworks?: boolean
}

type Call = () => Promise<SendResult>
type Prepare<Kind extends Sendable['kind']> = (effect: Extract<Sendable, { kind: Kind }>) => Promise<Call | null>

/** Our choice: a channel that throws is mistaken; it is asked five times before one message is given up. */
const triesOfThrowing = 5
const afterFailureMs = 1000
const hourMs = 3_600_000

/** Tries once to bring one message to its network. */
export class Attempts {
  readonly #parts: AttemptParts
  readonly #throws = new WeakMap<Pending, number>()
  readonly #repeated = new WeakSet<Pending>()

  constructor(parts: AttemptParts) {
    this.#parts = parts
  }

  async make(pending: Pending, channel: Channel | null): Promise<Attempt> {
    if (this.#isOver(pending)) return { kind: 'late' }
    // A command at work beside no network must not use up what the next start is to send.
    if (channel === null) return this.#parts.isWithoutNetworks === true ? { kind: 'later', afterMs: hourMs } : { kind: 'unreachable' }
    try {
      if (!(await this.#mayRepeat(pending))) return { kind: 'unsure' }
      const call = await this.#prepare(pending, channel)
      return call === null ? { kind: 'dropped' } : await this.#call(call, pending, channel)
    } catch (error) {
      this.#parts.log.warn('store-failed', { document: pending.document ?? 'none', code: describeError(error).code })
      return { kind: 'later', afterMs: afterFailureMs }
    }
  }

  #isOver({ document, until }: Pending): boolean {
    if (until === null || this.#parts.clock.now() <= until) return false
    this.#parts.log.warn('send-lapsed', { document: document ?? 'none' })
    return true
  }

  /** A reminder may reach somebody twice but not three times; an alert or a reply rather once too often than never. */
  async #mayRepeat(pending: Pending): Promise<boolean> {
    const { document, effect, isAgain } = pending
    if (!isAgain || document === null || readUrgency(effect) !== 'reminder') return true
    if (this.#repeated.has(pending)) return true
    // Noted durably before it happens; the mark of an attempt alone would not be.
    const event = brandAs<EventId>(`again:${effect.id}`)
    const isFirst = await this.#parts.documents.run(document, () => recommit(this.#parts.store, document, event))
    if (isFirst) this.#repeated.add(pending)
    return isFirst
  }

  /** Null: an amend of which it is no longer known which message is meant. */
  #prepare({ document, effect }: Pending, channel: Channel): Promise<Call | null> {
    const preparers: { readonly [Kind in Sendable['kind']]: Prepare<Kind> } = {
      send: async ({ to, message, urgency }) => () => channel.send(to, message, urgency),
      amend: async ({ to, of, text }) => {
        const ref = document === null ? null : await this.#refOf(document, of)
        return ref === null ? null : () => channel.amend(to, ref, text)
      },
    }
    return (preparers[effect.kind] as Prepare<Sendable['kind']>)(effect)
  }

  /** Behind the marks under way: the message to be amended may have been sent only just now. */
  #refOf(document: DocumentId, of: EffectId): Promise<string | null> {
    return this.#parts.marks.run(document, () => this.#parts.store.refOf(document, of))
  }

  async #call(call: Call, pending: Pending, channel: Channel): Promise<SendResult> {
    try {
      return await call()
    } catch (error) {
      return this.#countThrow(pending, channel, error)
    }
  }

  #countThrow(pending: Pending, channel: Channel, error: unknown): SendResult {
    const count = (this.#throws.get(pending) ?? 0) + 1
    this.#throws.set(pending, count)
    this.#parts.log.error('channel-threw', { channel: channel.name, ...describeError(error) })
    if (count < triesOfThrowing) return { kind: 'later', afterMs: afterFailureMs }
    return { kind: 'refused', code: 'channel-threw' }
  }
}
