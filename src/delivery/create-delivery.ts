import { setMaxListeners } from 'node:events'
import type { DocumentId, EffectId } from '#src/domain/identifier.ts'
import type { Inbound } from '#src/ports/channel.ts'
import { Activity } from './activity.ts'
import { countWaiting } from './count-waiting.ts'
import { DeliveryStopped, type Delivery, type DeliveryParts, type Unsent, type WaitingSends } from './delivery.ts'
import type { Identified } from './handler.ts'
import { KeyedQueue } from './keyed-queue.ts'
import { contactKey } from './lane.ts'
import { MarkWriter } from './mark-writer.ts'
import { Outbox } from './outbox.ts'
import { Timers } from './timers.ts'
import { Turns } from './turns.ts'
import { Waker } from './waker.ts'

const longestStopMs = 10_000
const none: ReadonlySet<EffectId> = new Set()

export function createDelivery<E extends Identified>(parts: DeliveryParts<E>): Delivery<E> {
  return new Shell(parts)
}

class Shell<E extends Identified> implements Delivery<E> {
  readonly #parts: DeliveryParts<E>
  readonly #activity = new Activity()
  readonly #contacts = new KeyedQueue()
  readonly #halt = new AbortController()
  readonly #turns: Turns<E>
  readonly #outbox: Outbox<E>
  readonly #waker: Waker<E>
  readonly #timers: Timers<E>
  #stopped: Promise<void> | null = null

  constructor(parts: DeliveryParts<E>) {
    this.#parts = parts
    // All that waits listens for the stop: as many as there are people, and no leak.
    setMaxListeners(0, this.#halt.signal)
    const queues = { documents: new KeyedQueue(), marks: new KeyedQueue() }
    const { wakeUps } = parts.store
    const share = parts.share ?? (wakeUps === null ? undefined : () => wakeUps.share())
    const shared = { ...parts, ...queues, ...(share === undefined ? {} : { share }), activity: this.#activity, halt: this.#halt.signal }
    const markWriter = new MarkWriter(shared)
    this.#turns = new Turns<E>({
      ...shared,
      onParked: parts.onParked ?? ignore,
      take: (owed, added) => this.#outbox.take(owed, added),
      reply: (effects) => this.#outbox.reply(effects),
      committed: (document) => {
        markWriter.noteCommit(document)
        this.#timers.arm()
      },
    })
    this.#outbox = new Outbox<E>({ ...shared, turns: this.#turns, markWriter })
    this.#waker = new Waker<E>({ ...shared, turns: this.#turns })
    this.#timers = new Timers<E>({ ...shared, waker: this.#waker })
  }

  receive(inbound: Inbound): Promise<void> {
    // Routed one at a time per contact as well: a message behind a join is routed by what the join made of the contact.
    return this.#take(() => this.#contacts.run(contactKey(inbound.from), () => this.#receive(inbound)))
  }

  submit(document: DocumentId, event: E): Promise<void> {
    return this.#take(async () => void (await this.#turns.run(document, event)))
  }

  async start(): Promise<void> {
    const { store } = this.#parts
    await this.#activity.run(async () => {
      this.#outbox.take(await store.claim(), none)
      if (store.wakeUps === null) await this.#timers.start()
      else await store.wakeUps.start((document) => this.#activity.run(() => this.#lookAt(document)))
    })
  }

  stop(): Promise<void> {
    this.#stopped ??= this.#finish()
    return this.#stopped
  }

  runDue(): Promise<void> {
    return this.#activity.run(() => this.#timers.runDue())
  }

  tryAgain(channel: string): readonly Unsent[] {
    return this.#outbox.tryAgain(channel)
  }

  waiting(): readonly WaitingSends[] {
    return countWaiting(this.#outbox.pendings)
  }

  idle(): Promise<void> {
    return this.#activity.idle()
  }

  #take(work: () => Promise<void>): Promise<void> {
    return this.#stopped === null ? this.#activity.run(work) : Promise.reject(new DeliveryStopped())
  }

  async #receive(inbound: Inbound): Promise<void> {
    const { handler, newSecret, store } = this.#parts
    const head = await store.findByContact(inbound.from)
    // Another process may be the one that sends to them.
    const unsent = Math.max(this.#outbox.unsentTo(inbound.from), head?.owing ?? 0)
    const routed = this.#turns.build(null, inbound.id, () => handler.route(inbound, head, newSecret, unsent))
    if (routed !== null) await this.#turns.run(routed.document, routed.event)
  }

  /** A hint that something of the document may be due or unsent. */
  async #lookAt(document: DocumentId): Promise<void> {
    const { store } = this.#parts
    this.#outbox.take(await store.claim(document), none)
    const head = await store.head(document)
    if (head !== null) await this.#waker.wake(head)
  }

  async #finish(): Promise<void> {
    this.#timers.stop()
    const { stopWithinMs = longestStopMs, store, wait } = this.#parts
    const finished = Promise.all([store.wakeUps?.stop(), this.#activity.idle()])
    await Promise.race([finished, wait(stopWithinMs, this.#halt.signal)])
    this.#halt.abort()
  }
}

function ignore(): void {}
