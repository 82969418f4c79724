import type { Entry } from '#src/domain/entry.ts'
import type { DocumentId, EffectId, EventId, Instant } from '#src/domain/identifier.ts'
import type { Contact, Effect } from '#src/domain/message.ts'

export const documentKinds = ['clinic', 'desk', 'chart'] as const
export type DocumentKind = (typeof documentKinds)[number]

/** What a store must know of any document; everything else in it is the chart room's business. */
export interface StoredDocument {
  readonly kind: DocumentKind
  readonly id: DocumentId
  /** The version of the document's shape, for migrations. */
  readonly format: number
}

/** The small derived part of a document that look-ups read. */
export interface Head {
  readonly id: DocumentId
  readonly kind: DocumentKind
  readonly name: string
  readonly contacts: readonly Contact[]
  /** The earliest due timer. */
  readonly nextDueAt: Instant | null
  readonly openAlerts: number
  readonly isLocked: boolean
  readonly approvalsWaiting: number
  readonly lastSessionAt: Instant | null
}

/** What one event made of one document, committed as one. */
export interface Commit<D extends StoredDocument = StoredDocument> {
  readonly document: D
  readonly head: Head
  readonly entries: readonly Entry[]
  readonly effects: readonly Effect[]
  /** A session closed: the open entries may move to a volume of their own. */
  readonly closesVolume: boolean
}

/** An effect not yet known to be delivered, oldest first. */
export interface Owed {
  readonly document: DocumentId
  readonly effect: Effect
  readonly attempts: number
}

/** What became of an effect. `ref` is the network's name for the message, needed to amend it. */
export type Delivery =
  | { readonly kind: 'delivered'; readonly ref: string | null }
  /** Given up: the person cannot be reached there, or the effect was parked. */
  | { readonly kind: 'abandoned' }
  /** Tried in vain and still owed: counts one attempt. */
  | { readonly kind: 'tried' }

export interface Store {
  /** Opens the store and its heads. Rejects with a {@link StoreError} that names what is wrong and the mend. */
  open(): Promise<void>
  close(): Promise<void>

  read<D extends StoredDocument>(id: DocumentId): Promise<D | null>

  /**
   * Runs `decide` on the document as it stands and commits what it returns together with the event's id; nobody else
   * changes that document meanwhile. The last 200 event ids of a document are remembered: an event seen before changes
   * nothing and `decide` is not called. `decide` returning null commits nothing and does not remember the event.
   * Resolves once the commit is durable, with whether it was applied and what the document now owes.
   */
  apply<D extends StoredDocument>(
    id: DocumentId,
    event: EventId,
    decide: (document: D | null) => Commit<D> | null,
  ): Promise<{ readonly applied: boolean; readonly owed: readonly Owed[] }>

  /** Marks an effect; the mark is durable no later than the document's next commit, and after {@link close}. */
  settle(document: DocumentId, effect: EffectId, delivery: Delivery): Promise<void>
  /** The network's name for a sent message, if it is still known. */
  refOf(document: DocumentId, effect: EffectId): Promise<string | null>
  owed(document: DocumentId): Promise<readonly Owed[]>
  /** Documents that owe something: read at the start. */
  documentsOwing(): Promise<readonly DocumentId[]>

  /** The desk or chart that a contact belongs to; if several claim it, a desk before a chart, then the lowest id. */
  findByContact(contact: Contact): Promise<Head | null>
  /** By id. */
  heads(kind?: DocumentKind): Promise<readonly Head[]>
  /** Documents with a timer due at or before `at`, earliest first. */
  due(at: Instant): Promise<readonly Head[]>
  /** The earliest due instant of all. */
  nextDueAt(): Promise<Instant | null>

  /** The whole record of one document, oldest first. */
  entries(id: DocumentId): Promise<readonly Entry[]>

  /** Removes a document, its record and all that is remembered of it, for good. May be asked again after a crash. */
  erase(id: DocumentId): Promise<void>
}

/** `damaged`, `locked`, `newer`: the start is refused; `full`: the commit did not happen. */
export type StoreErrorCode = 'damaged' | 'locked' | 'newer' | 'full' | 'unavailable'

/** The store cannot be used. The message names the file or folder and the mend, never what a document holds. */
export class StoreError extends Error {
  readonly code: StoreErrorCode
  constructor(code: StoreErrorCode, message: string, options?: ErrorOptions) {
    super(message, options)
    this.name = 'StoreError'
    this.code = code
  }
}
