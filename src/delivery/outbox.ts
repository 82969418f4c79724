import { brandAs, type DocumentId, type EffectId, type EventId } from '#src/domain/identifier.ts'
import type { Contact, Effect } from '#src/domain/message.ts'
import type { Channel } from '#src/ports/channel.ts'
import type { Delivery as Mark, MarkKept, Owed } from '#src/ports/store.ts'
import { Attempts, type AttemptParts } from './attempts.ts'
import type { Unsent } from './delivery.ts'
import { describeError } from './describe-error.ts'
import type { Handler, Identified, SendEffect, UndeliverableReason, UnsentReason } from './handler.ts'
import type { Pending, Sendable } from './lane.ts'
import type { MarkWriter } from './mark-writer.ts'
import { Outlet, type OutletParts } from './outlet.ts'
import { Tells } from './tells.ts'
import type { Turns } from './turns.ts'

export interface OutboxParts<E extends Identified>
  extends AttemptParts,
    Pick<OutletParts, 'activity' | 'wait' | 'halt' | 'share'> {
  readonly channels: readonly Channel[]
  readonly handler: Handler<E>
  readonly turns: Turns<E>
  readonly markWriter: MarkWriter
}

/** Our choice: nobody waits longer for an answer that is not even stored. */
const unstoredWorthMs = 10 * 60_000

/** Takes what documents owe, each effect once, and marks it when it is done. */
export class Outbox<E extends Identified> {
  readonly #parts: OutboxParts<E>
  readonly #outlets = new Map<string, Outlet>()
  readonly #outletParts: OutletParts
  readonly #tells: Tells<E>
  readonly #taken = new Set<string>()

  constructor(parts: OutboxParts<E>) {
    this.#parts = parts
    this.#outletParts = {
      ...parts,
      attempts: new Attempts(parts),
      settle: ({ document, effect }, mark) => this.#settle(document, effect, mark),
      giveUp: (pending, reason) => this.#giveUp(pending, reason),
      forgo: (pending, reason) => this.#forgo(pending, reason),
      noteDelay: (pending) => this.#noteDelay(pending),
    }
    this.#tells = new Tells<E>({ ...parts, settle: (document, effect, mark) => this.#settle(document, effect, mark) })
  }

  /** `added`: what nobody can have sent yet; the rest is owed since earlier, so perhaps sent already. */
  take(owed: readonly Owed[], added: ReadonlySet<EffectId>): void {
    const pendings: Pending[] = []
    for (const { document, effect } of owed) {
      const key = takenKey(document, effect.id)
      if (this.#taken.has(key)) continue
      this.#taken.add(key)
      const isAgain = !added.has(effect.id)
      const takers: { readonly [Kind in Effect['kind']]: (effect: Extract<Effect, { kind: Kind }>) => void } = {
        send: (send) => pendings.push(this.#pend(document, send, isAgain)),
        amend: (amend) => pendings.push(this.#pend(document, amend, isAgain)),
        tell: (tell) => this.#tells.add(document, tell),
      }
      ;(takers[effect.kind] as (effect: Effect) => void)(effect)
    }
    this.#send(pendings)
  }

  /** Nothing is stored of these. */
  reply(effects: readonly SendEffect[]): void {
    const until = this.#parts.clock.now() + unstoredWorthMs
    const takenAt = this.#parts.clock.now()
    this.#send(effects.map((effect) => ({ document: null, effect, isAgain: false, until, takenAt })))
  }

  #pend(document: DocumentId, effect: Sendable, isAgain: boolean): Pending {
    return { document, effect, isAgain, until: effect.kind === 'send' ? (effect.until ?? null) : null, takenAt: this.#parts.clock.now() }
  }

  #send(pendings: readonly Pending[]): void {
    for (const name of new Set(pendings.map(({ effect }) => effect.to.channel))) {
      this.#outletOf(name).add(pendings.filter(({ effect }) => effect.to.channel === name))
    }
  }

  #outletOf(name: string): Outlet {
    const known = this.#outlets.get(name)
    if (known !== undefined) return known
    const channel = this.#parts.channels.find((one) => one.name === name) ?? null
    if (channel === null && this.#parts.isWithoutNetworks !== true) this.#parts.log.error('channel-missing', { channel: name })
    const outlet = new Outlet(channel, this.#outletParts)
    this.#outlets.set(name, outlet)
    return outlet
  }

  tryAgain(channel: string): readonly Unsent[] {
    const outlet = this.#outlets.get(channel)
    const unsent = (outlet?.pendings ?? []).flatMap(({ document, effect }) => (document === null ? [] : [{ document, effect: effect.id }]))
    outlet?.tryAgain()
    return unsent
  }

  #giveUp(pending: Pending, reason: UndeliverableReason): Promise<void> {
    return this.#tellOwner(pending, 'undeliverable', (effect, id) => this.#parts.handler.undeliverable(effect, reason, id))
  }

  #forgo(pending: Pending, reason: UnsentReason): Promise<void> {
    return this.#tellOwner(pending, 'unreminded', (effect, id) => this.#parts.handler.unreminded(effect, reason, id))
  }

  #noteDelay(pending: Pending): Promise<void> {
    return this.#tellOwner(pending, 'delayed', (effect, id) => this.#parts.handler.delayed(effect, id))
  }

  /** What became of a send is an event of the document that owes it, the same however often it is told. */
  async #tellOwner({ document, effect }: Pending, what: string, make: (effect: SendEffect, id: EventId) => E): Promise<void> {
    if (document === null || effect.kind !== 'send') return
    const id = brandAs<EventId>(`${what}:${effect.id}`)
    const event = this.#parts.turns.build(document, id, () => make(effect, id))
    if (event !== null) await this.#parts.turns.run(document, event)
  }

  /** What is on its way, for whoever wants to know how the delivery stands. */
  get pendings(): readonly Pending[] {
    return [...this.#outlets.values()].flatMap((outlet) => outlet.pendings)
  }

  /** How many messages to one contact are on their way. */
  unsentTo(contact: Contact): number {
    return this.#outlets.get(contact.channel)?.unsentTo(contact) ?? 0
  }

  #settle(document: DocumentId | null, effect: Effect, mark: Mark): void {
    if (document === null) return
    const { activity, marks } = this.#parts
    void activity.run(() => marks.run(document, () => this.#mark(document, effect, mark)))
  }

  async #mark(document: DocumentId, effect: Effect, mark: Mark): Promise<void> {
    const { activity, documents, log, markWriter, store } = this.#parts
    let kept: MarkKept
    try {
      kept = await store.settle(document, effect.id, mark)
    } catch (error) {
      // Stays taken: what is only unmarked must not be sent again before the next start.
      log.warn('mark-failed', { document, ...describeError(error) })
      return
    }
    if (kept === 'with-next-commit') markWriter.noteMark(document, effect.id)
    // Behind the turn that runs now: what it finds owed was read before the mark.
    const forget = async (): Promise<void> => void this.#taken.delete(takenKey(document, effect.id))
    void activity.run(() => documents.run(document, forget))
  }
}

function takenKey(document: DocumentId, effect: EffectId): string {
  return `${document}\n${effect}`
}
