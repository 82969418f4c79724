import type { Entry } from '#src/domain/entry.ts'
import type { DocumentId, EffectId, EventId, Instant } from '#src/domain/identifier.ts'
import type { Contact } from '#src/domain/message.ts'
import type { Archive, DocumentCopy } from '#src/ports/archive.ts'
import { StoreError } from '#src/ports/store.ts'
import type { Commit, Delivery, DocumentKind, Head, MarkKept, Owed, Store, StoredDocument } from '#src/ports/store.ts'
import { checkCommit } from './check-commit.ts'
import { envelopeOf } from './document-copy.ts'
import { documentFileName } from './document-file-name.ts'
import { createDocumentQueues } from './document-queues.ts'
import { commitToEnvelope, listOwed, settleInEnvelope } from './envelope.ts'
import type { Envelope } from './envelope.ts'
import { HeadIndex } from './head-index.ts'
import { keepJson } from './keep-json.ts'
import type { Shelf } from './shelf.ts'

/** Delivered marks that are not yet written; they replace the envelope's until its next commit. */
type Unsaved = Pick<Envelope, 'owed' | 'refs'>

/** The store that keeps each document on a shelf; it alone knows the rules, the shelf only keeps. */
export class ShelvedStore implements Store, Pick<Archive, 'copyIn'> {
  readonly wakeUps = null
  readonly #shelf: Shelf
  readonly #format: number
  readonly #queues = createDocumentQueues<DocumentId>()
  readonly #unsaved = new Map<DocumentId, Unsaved>()
  readonly #owing = new Set<DocumentId>()
  readonly #heads = new HeadIndex()
  #state: 'new' | 'open' | 'closed' = 'new'

  constructor(shelf: Shelf, format: number) {
    this.#shelf = shelf
    this.#format = format
  }

  async open(): Promise<void> {
    if (this.#state !== 'new') throw new StoreError('unavailable', 'The store was opened before; make another.')
    this.#state = 'closed'
    await this.#shelf.open((envelope) => this.#index(envelope))
    this.#state = 'open'
  }

  async close(): Promise<void> {
    if (this.#state !== 'open') return
    this.#state = 'closed'
    await this.#queues.drain()
    const outcomes = await Promise.allSettled([...this.#unsaved.keys()].map((id) => this.#saveMarks(id)))
    await this.#shelf.close()
    const failed = outcomes.find((outcome) => outcome.status === 'rejected')
    if (failed !== undefined) throw failed.reason
  }

  async read<D extends StoredDocument>(id: DocumentId): Promise<D | null> {
    return documentOf<D>(await this.#look(id))
  }

  async apply<D extends StoredDocument>(
    id: DocumentId,
    event: EventId,
    decide: (document: D | null) => Commit<D> | null,
  ): Promise<{ readonly applied: boolean; readonly owed: readonly Owed[] }> {
    return this.#turn(id, async () => {
      const before = await this.#load(id)
      const isRepeat = before !== null && before.seen.includes(event)
      const decided = isRepeat ? null : decide(documentOf<D>(before))
      if (decided === null) return { applied: false, owed: listOwed(before) }
      const commit = keepJson<Commit>(decided)
      checkCommit(id, before, commit, this.#format)
      const { envelope, volume } = commitToEnvelope(before, event, commit)
      // The volume first: if the envelope is then not written, the volume is an orphan that the next one replaces.
      if (volume !== null) await this.#shelf.writeVolume(id, envelope.volumes, volume)
      await this.#save(envelope)
      return { applied: true, owed: listOwed(envelope) }
    })
  }

  async settle(document: DocumentId, effect: EffectId, delivery: Delivery): Promise<MarkKept> {
    await this.#turn(document, async () => {
      const before = await this.#load(document)
      const after = before === null ? null : settleInEnvelope(before, effect, delivery)
      if (after === null || after === before) return
      this.#unsaved.set(document, { owed: after.owed, refs: after.refs })
      this.#noteDebt(after)
    })
    return 'with-next-commit'
  }

  async refOf(document: DocumentId, effect: EffectId): Promise<string | null> {
    const envelope = await this.#look(document)
    // What is amended was sent last, as a rule.
    return envelope?.refs.findLast((sent) => sent.effect === effect)?.ref ?? null
  }

  async owed(document: DocumentId): Promise<readonly Owed[]> {
    return listOwed(await this.#look(document))
  }

  async documentsOwing(): Promise<readonly DocumentId[]> {
    this.#requireOpen()
    return [...this.#owing].sort()
  }

  /** The one process on the shelf sends everything. */
  async claim(document?: DocumentId): Promise<readonly Owed[]> {
    const documents = document === undefined ? await this.documentsOwing() : [document]
    return (await Promise.all(documents.map((id) => this.owed(id)))).flat()
  }

  async findByContact(contact: Contact): Promise<Head | null> {
    this.#requireOpen()
    return this.#heads.findByContact(contact)
  }

  async head(id: DocumentId): Promise<Head | null> {
    this.#requireOpen()
    return this.#heads.find(id)
  }

  async heads(kind?: DocumentKind): Promise<readonly Head[]> {
    this.#requireOpen()
    return this.#heads.list(kind)
  }

  async due(at: Instant): Promise<readonly Head[]> {
    this.#requireOpen()
    return this.#heads.due(at)
  }

  async nextDueAt(): Promise<Instant | null> {
    this.#requireOpen()
    return this.#heads.nextDueAt()
  }

  async entries(id: DocumentId): Promise<readonly Entry[]> {
    const envelope = await this.#look(id)
    if (envelope === null) return []
    // Outside the queue: closed volumes never change, so a long record delays nobody's answer.
    const record: Entry[] = []
    for (let number = 1; number <= envelope.volumes; number += 1) {
      record.push(...(await this.#shelf.readVolume(id, number)))
    }
    return [...record, ...envelope.entries]
  }

  async copyIn(copy: DocumentCopy): Promise<void> {
    const { id } = copy.document
    await this.#turn(id, async () => {
      if ((await this.#shelf.read(id)) !== null) throw new StoreError('unavailable', 'A document of that id stands already. Nothing was put in its place.')
      const { document, head, entries } = copy
      checkCommit(id, null, { document, head, entries, effects: [], closesVolume: false }, this.#format)
      const { envelope, volume } = envelopeOf(keepJson(copy))
      if (volume !== null) await this.#shelf.writeVolume(id, envelope.volumes, volume)
      await this.#save(envelope)
    })
  }

  async erase(id: DocumentId): Promise<void> {
    await this.#turn(id, async () => {
      await this.#shelf.erase(id)
      this.#unsaved.delete(id)
      this.#owing.delete(id)
      this.#heads.remove(id)
    })
  }

  #requireOpen(): void {
    if (this.#state !== 'open') throw new StoreError('unavailable', 'The store is not open.')
  }

  async #turn<T>(id: DocumentId, work: () => Promise<T>): Promise<T> {
    this.#requireOpen()
    // Throws on an id that no file could be named after.
    documentFileName(id)
    return this.#queues.run(id, work)
  }

  #look(id: DocumentId): Promise<Envelope | null> {
    return this.#turn(id, () => this.#load(id))
  }

  async #load(id: DocumentId): Promise<Envelope | null> {
    const envelope = await this.#shelf.read(id)
    const unsaved = this.#unsaved.get(id)
    return envelope === null || unsaved === undefined ? envelope : { ...envelope, ...unsaved }
  }

  async #save(envelope: Envelope): Promise<void> {
    await this.#shelf.write(envelope)
    this.#unsaved.delete(envelope.id)
    this.#index(envelope)
  }

  async #saveMarks(id: DocumentId): Promise<void> {
    const envelope = await this.#load(id)
    if (envelope !== null) await this.#save(envelope)
  }

  #index(envelope: Envelope): void {
    this.#heads.put(envelope.head)
    this.#noteDebt(envelope)
  }

  #noteDebt(envelope: Envelope): void {
    if (envelope.owed.length > 0) this.#owing.add(envelope.id)
    else this.#owing.delete(envelope.id)
  }
}

function documentOf<D extends StoredDocument>(envelope: Envelope | null): D | null {
  return envelope === null ? null : (envelope.document as D)
}
