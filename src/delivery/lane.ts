import type { DocumentId, Instant } from '#src/domain/identifier.ts'
import { urgencies, type Contact, type Effect, type Urgency } from '#src/domain/message.ts'

export type Sendable = Extract<Effect, { kind: 'send' | 'amend' }>

/** A message that is on its way to somebody. */
export interface Pending {
  /** The document that owes it; null where nothing is stored. */
  readonly document: DocumentId | null
  readonly effect: Sendable
  /** Owed since an earlier run or by another process, so perhaps sent already. */
  readonly isAgain: boolean
  /** Worth nothing afterwards; null: never given up. */
  readonly until: Instant | null
  /** Since when this process tries. */
  readonly takenAt: Instant
}

export function contactKey(contact: Contact): string {
  return `${contact.channel}\n${contact.address}`
}

const urgencyOf: { [Kind in Sendable['kind']]: (effect: Extract<Sendable, { kind: Kind }>) => Urgency } = {
  send: (effect) => effect.urgency,
  amend: () => 'reply',
}

export function readUrgency(effect: Sendable): Urgency {
  return (urgencyOf[effect.kind] as (effect: Sendable) => Urgency)(effect)
}

/** What waits for one contact: one document's messages in their order, the more urgent document first. */
export class Lane {
  isSending = false
  /** Since the network last took something. */
  failures = 0
  /** Set while the network asked for patience; aborting it ends the waiting. */
  hold: AbortController | null = null
  /** Set while the network's own pace asks for patience. */
  rest: AbortController | null = null
  failedAt: Instant = 0
  /** The network's own "not before", never shortened. */
  notBefore: Instant = 0
  readonly contact: Contact
  #pendings: Pending[] = []

  constructor(contact: Contact) {
    this.contact = contact
  }

  get isEmpty(): boolean {
    return this.#pendings.length === 0
  }

  get pendings(): readonly Pending[] {
    return this.#pendings
  }

  add(pending: Pending): void {
    this.#pendings.push(pending)
  }

  remove(pending: Pending): void {
    this.#pendings = this.#pendings.filter((one) => one !== pending)
  }

  urgency(): Urgency {
    return urgencies[Math.min(...this.#rankDocuments().values())] ?? 'reminder'
  }

  next(): Pending | null {
    const ranks = this.#rankDocuments()
    let first: Pending | null = null
    for (const pending of this.#pendings) {
      if (first === null || rankIn(ranks, pending) < rankIn(ranks, first)) first = pending
    }
    return first
  }

  /** A document is as urgent as its most urgent message: what stands before an alert of its own goes with it. */
  #rankDocuments(): Map<DocumentId | null, number> {
    const ranks = new Map<DocumentId | null, number>()
    for (const pending of this.#pendings) {
      const rank = urgencies.indexOf(readUrgency(pending.effect))
      const source = sourceOf(pending)
      ranks.set(source, Math.min(rank, ranks.get(source) ?? rank))
    }
    return ranks
  }
}

function rankIn(ranks: ReadonlyMap<DocumentId | null, number>, pending: Pending): number {
  return ranks.get(sourceOf(pending)) ?? urgencies.length
}

/** What has an order of its own: a document's messages, but for those that stand for themselves. */
function sourceOf({ document, effect }: Pending): DocumentId | null {
  return effect.kind === 'send' && effect.isApart === true ? null : document
}
