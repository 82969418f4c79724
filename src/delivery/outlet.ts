import { urgencies, type Contact, type Urgency } from '#src/domain/message.ts'
import type { Channel } from '#src/ports/channel.ts'
import type { Clock } from '#src/ports/clock.ts'
import type { Log } from '#src/ports/log.ts'
import { StoreError, type Delivery as Mark } from '#src/ports/store.ts'
import type { Activity } from './activity.ts'
import type { Attempt, Attempts } from './attempts.ts'
import { describeError } from './describe-error.ts'
import type { UndeliverableReason, UnsentReason } from './handler.ts'
import { DelayWatch } from './delay-watch.ts'
import { contactKey, Lane, type Pending } from './lane.ts'
import { NextLook, passTime } from './next-look.ts'
import { Pace, type Share } from './pace.ts'
import { retryDelayMs } from './retry-delay.ts'
import type { Wait } from './wait.ts'

export interface OutletParts {
  readonly attempts: Attempts
  readonly activity: Activity
  readonly clock: Clock
  readonly wait: Wait
  readonly share?: Share
  readonly log: Log
  /** Aborted: nothing more is begun. */
  readonly halt: AbortSignal
  readonly settle: (pending: Pending, mark: Mark) => void
  /** Tells the document that a send can never arrive; rejects if the store failed. */
  readonly giveUp: (pending: Pending, reason: UndeliverableReason) => Promise<void>
  /** Tells the document that a reminder is not sent; rejects if the store failed. */
  readonly forgo: (pending: Pending, reason: UnsentReason) => Promise<void>
  /** Tells the document that an alert still waits for its network. */
  readonly noteDelay: (pending: Pending) => Promise<void>
}

type Conclude<Kind extends Attempt['kind']> = (
  lane: Lane,
  pending: Pending,
  attempt: Extract<Attempt, { kind: Kind }>,
) => void | Promise<void>

/** Our choice: what one network gets at once; alerts do not count and do not wait for room. */
const sendingAtOnce = 16
const afterStoreFailureMs = 1000
/** Without a reason of its own every abort would make an error with a stack. */
const isOver = 'over'

/** Everything on its way through one network: a lane for each contact, the most urgent lane first. */
export class Outlet {
  /** Null: the network is not configured, so that nobody can be reached there. */
  readonly #channel: Channel | null
  readonly #parts: OutletParts
  readonly #lanes = new Map<string, Lane>()
  readonly #ready: Record<Urgency, Set<Lane>> = { alert: new Set(), reply: new Set(), reminder: new Set() }
  readonly #delays: DelayWatch
  /** Null: the network states no limits. */
  readonly #pace: Pace | null
  readonly #nextLook: NextLook
  #sending = 0

  constructor(channel: Channel | null, parts: OutletParts) {
    this.#channel = channel
    this.#parts = parts
    this.#delays = new DelayWatch(parts)
    this.#pace = channel?.limits === undefined ? null : new Pace(channel.limits, parts.clock, parts.share)
    this.#nextLook = new NextLook(parts, () => this.#begin())
    parts.halt.addEventListener('abort', () => {
      this.#nextLook.end()
      for (const lane of this.#lanes.values()) {
        lane.hold?.abort(isOver)
        lane.rest?.abort(isOver)
      }
    })
  }

  /** All at once, so that the most urgent of them goes first. */
  add(pendings: readonly Pending[]): void {
    for (const pending of pendings) {
      const lane = this.#laneOf(pending.effect.to)
      lane.add(pending)
      if (lane.hold !== null) this.#delays.watch(lane)
      if (lane.isSending) continue
      if (lane.hold === null) this.#makeReady(lane)
      else this.#holdBack(lane)
    }
    this.#begin()
  }

  /** All lanes that are held back first, so that the most urgent goes first. */
  tryAgain(): void {
    for (const lane of this.#lanes.values()) {
      if (lane.hold === null) continue
      lane.failures = 0
      if (lane.notBefore > this.#parts.clock.now()) {
        this.#holdBack(lane)
        continue
      }
      lane.hold.abort(isOver)
      lane.hold = null
      if (!lane.isSending) this.#makeReady(lane)
    }
    this.#begin()
  }

  get pendings(): readonly Pending[] {
    return [...this.#lanes.values()].flatMap((lane) => lane.pendings)
  }

  unsentTo(contact: Contact): number {
    return this.#lanes.get(contactKey(contact))?.pendings.length ?? 0
  }

  #laneOf(contact: Contact): Lane {
    const key = contactKey(contact)
    const lane = this.#lanes.get(key) ?? new Lane(contact)
    this.#lanes.set(key, lane)
    return lane
  }

  #makeReady(lane: Lane): void {
    lane.rest?.abort(isOver)
    lane.rest = null
    for (const urgency of urgencies) this.#ready[urgency].delete(lane)
    if (lane.isEmpty) return void this.#lanes.delete(contactKey(lane.contact))
    const urgency = lane.urgency()
    const restMs = this.#pace?.contactDelayMs(contactKey(lane.contact), urgency) ?? 0
    if (restMs > 0) this.#rest(lane, urgency, restMs)
    else this.#ready[urgency].add(lane)
  }

  #begin(): void {
    for (const urgency of urgencies) {
      for (const lane of this.#ready[urgency]) {
        if (this.#parts.halt.aborted) return
        if (this.#sending >= sendingAtOnce && urgency !== 'alert') return
        const delayMs = this.#pace?.overallDelayMs(urgency) ?? 0
        // Nobody less urgent goes before.
        if (delayMs > 0) return this.#nextLook.after(urgency, delayMs)
        this.#pace?.take(contactKey(lane.contact))
        this.#ready[urgency].delete(lane)
        this.#sending += 1
        lane.isSending = true
        void this.#parts.activity.run(() => this.#serve(lane))
      }
    }
  }

  /** Others go on meanwhile; an alert that comes for the same person ends the rest. */
  #rest(lane: Lane, urgency: Urgency, ms: number): void {
    const rest = new AbortController()
    lane.rest = rest
    if (urgency === 'alert') this.#delays.watch(lane)
    void passTime(this.#parts, urgency, ms, rest.signal).then(() => {
      if (rest.signal.aborted) return
      this.#makeReady(lane)
      this.#begin()
    })
  }

  async #serve(lane: Lane): Promise<void> {
    const pending = lane.next()
    try {
      if (pending !== null) await this.#serveOne(lane, pending)
    } catch (error) {
      // A store that is away is no mistake of ours: what was to be told is told when it is back.
      if (error instanceof StoreError) this.#parts.log.warn('store-failed', { document: pending?.document ?? 'none', code: error.code })
      else this.#parts.log.error('send-failed', describeError(error))
      this.#hold(lane, afterStoreFailureMs)
    } finally {
      this.#sending -= 1
      lane.isSending = false
      if (lane.hold === null) this.#makeReady(lane)
      this.#begin()
    }
  }

  async #serveOne(lane: Lane, pending: Pending): Promise<void> {
    const attempt = await this.#parts.attempts.make(pending, this.#channel)
    if (attempt.kind !== 'later') lane.failures = 0
    await (this.#concluders[attempt.kind] as Conclude<Attempt['kind']>)(lane, pending, attempt)
  }

  readonly #concluders: { readonly [Kind in Attempt['kind']]: Conclude<Kind> } = {
    sent: (lane, pending, { ref }) => this.#settle(lane, pending, { kind: 'delivered', ref }),
    dropped: (lane, pending) => this.#settle(lane, pending, { kind: 'abandoned' }),
    later: (lane, _pending, { afterMs }) => this.#hold(lane, afterMs),
    late: (lane, pending) => this.#abandon(lane, pending, this.#parts.forgo(pending, 'late')),
    unsure: (lane, pending) => this.#abandon(lane, pending, this.#parts.forgo(pending, 'unsure')),
    unreachable: (lane, pending) => this.#abandon(lane, pending, this.#parts.giveUp(pending, 'unreachable')),
    refused: (lane, pending, { code }) => {
      this.#parts.log.warn('send-refused', { channel: lane.contact.channel, code })
      return this.#abandon(lane, pending, this.#parts.giveUp(pending, 'refused'))
    },
  }

  /** First its document is told, then the mark: between the two a crash repeats the event, which is known by its id. */
  async #abandon(lane: Lane, pending: Pending, told: Promise<void>): Promise<void> {
    await told
    this.#settle(lane, pending, { kind: 'abandoned' })
  }

  /** Not awaited: a document whose store is slow must not delay an alert of another to the same person. */
  #settle(lane: Lane, pending: Pending, mark: Mark): void {
    lane.remove(pending)
    this.#parts.settle(pending, mark)
  }

  #hold(lane: Lane, afterMs: number): void {
    lane.failures += 1
    lane.failedAt = this.#parts.clock.now()
    lane.notBefore = lane.failedAt + afterMs
    this.#delays.watch(lane)
    this.#holdBack(lane)
  }

  /** Begins the waiting anew, since an alert that came meanwhile waits for less. */
  #holdBack(lane: Lane): void {
    lane.hold?.abort(isOver)
    const hold = new AbortController()
    lane.hold = hold
    const wholeMs = Math.max(lane.notBefore - lane.failedAt, retryDelayMs(lane.failures, lane.urgency()))
    // Never longer than the whole, though the clock may have been set back meanwhile.
    const passedMs = Math.max(0, this.#parts.clock.now() - lane.failedAt)
    void this.#parts.wait(Math.max(0, wholeMs - passedMs), hold.signal).then(() => {
      if (hold.signal.aborted) return
      lane.hold = null
      this.#makeReady(lane)
      this.#begin()
    })
  }
}
