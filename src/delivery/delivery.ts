import type { DocumentId, EffectId, Instant } from '#src/domain/identifier.ts'
import type { Urgency } from '#src/domain/message.ts'
import type { Channel, Inbound } from '#src/ports/channel.ts'
import type { Clock } from '#src/ports/clock.ts'
import type { Log } from '#src/ports/log.ts'
import type { Store } from '#src/ports/store.ts'
import type { Handler, Identified } from './handler.ts'
import type { Share } from './pace.ts'
import type { OnParked } from './turns.ts'
import type { Wait } from './wait.ts'

/** The shell around the step: takes events to documents one at a time and sends what they owe. */
export interface Delivery<E extends Identified = Identified> {
  /**
   * For channels. Resolves once the inbound is committed or parked; rejects if the store failed or the delivery has
   * stopped, and then no network may be told that it arrived.
   */
  receive(inbound: Inbound): Promise<void>
  /** Feeds an event of our own, on the same path. */
  submit(document: DocumentId, event: E): Promise<void>
  /** What the last run still owed first, then what is due. To be called before the channels start. */
  start(): Promise<void>
  /** Finishes what runs and sends what can be sent, within `stopWithinMs`; the rest stays owed. Before the store is closed. */
  stop(): Promise<void>
  /** Fires everything due up to the clock's now. */
  runDue(): Promise<void>
  /**
   * The network is heard again: what it has not taken is tried at once, save where it asked for patience itself. Gives what
   * had not been taken until now.
   */
  tryAgain(channel: string): readonly Unsent[]
  /** What has not gone out yet, of each network and urgency; the longest waiting first. */
  waiting(): readonly WaitingSends[]
  /**
   * Resolves when nothing is queued, running, or owed and sendable; what waits for a later try does not count, nor what
   * waits for its turn in the network's pace, unless it is an alert.
   */
  idle(): Promise<void>
}

/** A message that its document owes and no network has taken. */
export interface Unsent {
  readonly document: DocumentId
  readonly effect: EffectId
}

/** Messages that a network has not taken yet; counts only. */
export interface WaitingSends {
  readonly channel: string
  readonly urgency: Urgency
  readonly count: number
  /** Since when this process has tried the oldest of them. */
  readonly since: Instant
}

export interface DeliveryParts<E extends Identified = Identified> {
  readonly store: Store
  readonly clock: Clock
  readonly channels: readonly Channel[]
  readonly handler: Handler<E>
  readonly log: Log
  readonly wait: Wait
  readonly newSecret: () => string
  /** This process's part of what a network takes, above 0 and at most 1; all of it by default. */
  readonly share?: Share
  /** A command that only changes documents: messages stay owed, and nobody counts as out of reach for it. */
  readonly isWithoutNetworks?: boolean
  readonly onParked?: OnParked
  /** 10 s by default. */
  readonly stopWithinMs?: number
}

/** Nothing more is taken in; the network should bring it again after the next start. */
export class DeliveryStopped extends Error {
  readonly code = 'stopped'
  constructor() {
    super('The delivery has stopped.')
    this.name = 'DeliveryStopped'
  }
}
