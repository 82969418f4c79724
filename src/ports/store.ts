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

/** A head that was looked up. */
export interface Found extends Head {
  /** How many effects are owed, by whichever process sends them; left out where one process does, which knows for itself. */
  readonly owing?: number
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

/** How a mark becomes durable: with the document's next commit, or within a second and by itself. */
export type MarkKept = 'with-next-commit' | 'by-itself'

/** Several processes on one store share its work: the store hands out what one of them has to look after. */
export interface WakeUps {
  /**
   * From now on `wake` is called for a document of which something may be due or unsent: a hint, which may come twice
   * or in vain. A call that rejects is made again, by this process or another; one of a process that died, within 60 s.
   */
  start(wake: (document: DocumentId) => Promise<void>): Promise<void>
  /** Resolves when no call runs any more. */
  stop(): Promise<void>
  /** What part of the work is this process's, above 0 and at most 1: what a network takes at most is shared so. */
  share(): number
}

export interface Store {
  /** Null where one process has the whole store, which then looks itself for what is due. */
  readonly wakeUps: WakeUps | null

  /** Opens the store and its heads. Rejects with a {@link StoreError} that names what is wrong and the mend. */
  open(): Promise<void>
  close(): Promise<void>

  read<D extends StoredDocument>(id: DocumentId): Promise<D | null>

  /**
   * Runs `decide` on the document as it stands and commits what it returns together with the event's id; nobody else
   * changes that document meanwhile. The last 200 event ids of a document are remembered: an event seen before changes
   * nothing and `decide` is not called. `decide` returning null commits nothing and does not remember the event. Where another
   * process has changed the document meanwhile, nothing is committed and `decide` is called again, on what stands then, unless that
   * process has seen the event: only `applied` says that what it returned last was committed.
   * Resolves once the commit is durable, with whether it was applied and what the document now owes and this process is
   * to send. Where several processes share the store, one at a time sends what a document owes, so that it arrives in
   * order: the one that finds nobody else at it.
   */
  apply<D extends StoredDocument>(
    id: DocumentId,
    event: EventId,
    decide: (document: D | null) => Commit<D> | null,
  ): Promise<{ readonly applied: boolean; readonly owed: readonly Owed[] }>

  /** Marks an effect; the mark is durable no later than the document's next commit here, and after {@link close}. */
  settle(document: DocumentId, effect: EffectId, delivery: Delivery): Promise<MarkKept>
  /** The network's name for a sent message, if it is still known. */
  refOf(document: DocumentId, effect: EffectId): Promise<string | null>
  owed(document: DocumentId): Promise<readonly Owed[]>
  documentsOwing(): Promise<readonly DocumentId[]>
  /** What is owed, of one document or of all, and that no other process sends: from now on this one's to send. */
  claim(document?: DocumentId): Promise<readonly Owed[]>

  /** The desk or chart that a contact belongs to; if several claim it, a desk before a chart, then the lowest id. */
  findByContact(contact: Contact): Promise<Found | null>
  head(id: DocumentId): Promise<Head | null>
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

/** `damaged`, `locked`, `newer`, `keyed` (another key, or none): the start is refused; `full`: the commit did not happen. */
export type StoreErrorCode = 'damaged' | 'locked' | 'newer' | 'keyed' | 'full' | 'unavailable'

/** The store cannot be used. The message names the file or folder and the mend, never what a document holds. */
export class StoreError extends Error {
  readonly code: StoreErrorCode
  constructor(code: StoreErrorCode, message: string, options?: ErrorOptions) {
    super(message, options)
    this.name = 'StoreError'
    this.code = code
  }
}
