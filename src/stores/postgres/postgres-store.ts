import type { Entry } from '#src/domain/entry.ts'
import type { DocumentId, EffectId, EventId, Instant } from '#src/domain/identifier.ts'
import type { Contact } from '#src/domain/message.ts'
import type { Archive, DocumentCopy } from '#src/ports/archive.ts'
import type { Migration } from '#src/ports/migration.ts'
import { StoreError, type Commit, type Delivery, type DocumentKind, type Found, type Head, type MarkKept, type Owed, type Store, type StoredDocument, type WakeUps } from '#src/ports/store.ts'
import { plain, type Cipher } from '../cipher.ts'
import { documentFileName } from '../document-file-name.ts'
import { createDocumentQueues } from '../document-queues.ts'
import { formatAfter, noMigrations } from '../migrations.ts'
import { claimDocument, findClaimable } from './claim.ts'
import { answerAsKnown, commitAnswer, oncePerDocument, readOutbox, toOwed, type Answer, type Answered, type CommitParts } from './commit-answer.ts'
import { openConnections, type Connections } from './connections.ts'
import { copyIn, copyOut } from './copies.ts'
import { refuseFilling } from './filling.ts'
import { checkKey, takeKey } from './key-check.ts'
import { KnownRows } from './known-rows.ts'
import { createLateLooks, type LateLooks } from './late-looks.ts'
import { MarkFlusher } from './mark-flusher.ts'
import { Marks } from './marks.ts'
import { createPresence, type Presence } from './presence.ts'
import { createRows, type Rows } from './rows.ts'
import { describeNewer, prepareSchema } from './schema.ts'
import { waitUntilUp } from './wait-until-up.ts'
import { createWakeJobs, type WakeJobs } from './wake-jobs.ts'

export interface PostgresOptions {
  readonly url: string
  readonly steps?: readonly Migration[]
  readonly cipher?: Cipher
  /** Connections at most; our choice: more only wait for the same disk. */
  readonly size?: number
  readonly now?: () => Instant
  /** How long a mark may wait for others, to be written along with them. */
  readonly marksEveryMs?: number
  /** Whether a database that was filled only in part will do: for whoever fills it. */
  readonly isBeingFilled?: boolean
  /** Something went wrong that is made up for by itself; a fixed word for the log. */
  readonly onTrouble?: (event: string) => void
}

/** Many processes on one database: each document under its row lock, what is owed in the hands of one process at a time. */
export class PostgresStore implements Store, Archive {
  readonly #connections: Connections
  readonly #presence: Presence
  readonly #jobs: WakeJobs
  readonly #lateLooks: LateLooks
  readonly #rows: Rows
  readonly #cipher: Cipher
  readonly #isBeingFilled: boolean
  readonly #parts: CommitParts
  readonly #marks = new Marks()
  readonly #known = new KnownRows()
  readonly #flusher: MarkFlusher
  /** This process's turns on a document, so that they do not wait for each other with a connection in hand. */
  readonly #queues = createDocumentQueues<DocumentId>()
  #state: 'new' | 'open' | 'closed' = 'new'

  constructor(options: PostgresOptions) {
    const { url, steps = noMigrations, cipher = plain, size = 10, now = Date.now, marksEveryMs = 250, isBeingFilled = false, onTrouble = () => {} } = options
    this.#connections = openConnections({ url, size })
    this.#presence = createPresence(this.#connections)
    this.#jobs = createWakeJobs({ connections: this.#connections, now, share: () => 1 / this.#presence.processes(), onTrouble: () => onTrouble('job-queue-failed') })
    this.#lateLooks = createLateLooks(this.#connections, now)
    this.#cipher = cipher
    this.#isBeingFilled = isBeingFilled
    this.#rows = createRows(cipher, steps)
    this.#parts = { rows: this.#rows, jobs: this.#jobs, format: formatAfter(steps), self: this.#presence.id, now }
    this.#flusher = new MarkFlusher({ connections: this.#connections, rows: this.#rows, marks: this.#marks, known: this.#known, everyMs: marksEveryMs, onTrouble: () => onTrouble('marks-not-written') })
  }

  get wakeUps(): WakeUps {
    return {
      start: (wake) => {
        // Others may have added to what this process had in hand.
        this.#flusher.onMore = wake
        this.#lateLooks.start(wake)
        return this.#jobs.start(wake)
      },
      stop: () => {
        this.#lateLooks.stop()
        return this.#jobs.stop()
      },
      share: () => this.#jobs.share(),
    }
  }

  async open(): Promise<void> {
    if (this.#state !== 'new') throw new StoreError('unavailable', 'The store was opened before; make another.')
    this.#state = 'closed'
    try {
      await waitUntilUp(this.#connections)
      await prepareSchema(this.#connections)
      await takeKey(this.#connections, this.#cipher)
      await checkKey(this.#connections, this.#cipher)
      if (!this.#isBeingFilled) await refuseFilling(this.#connections.run)
      const [found] = await this.#connections.run<{ newest: number }>('SELECT coalesce(max(format), 0) AS newest FROM nuchal.document')
      if ((found?.newest ?? 0) > this.#parts.format) throw describeNewer(found?.newest ?? 0)
      await this.#jobs.open()
      await this.#presence.begin()
    } catch (error) {
      // Its upkeep would go on, and keep a process alive that serves nobody.
      await this.#jobs.close().catch(() => {})
      await this.#connections.close().catch(() => {})
      throw error
    }
    this.#state = 'open'
  }

  async close(): Promise<void> {
    if (this.#state !== 'open') return
    this.#state = 'closed'
    try {
      await this.#queues.drain()
      await this.#flusher.end()
      await this.#presence.end()
    } finally {
      await this.#jobs.close().catch(() => {})
      await this.#connections.close()
    }
  }

  async read<D extends StoredDocument>(id: DocumentId): Promise<D | null> {
    const [row] = await this.#find<{ body: string }>(id, 'SELECT body FROM nuchal.document WHERE id = $1')
    return row === undefined ? null : (this.#rows.readDocument(id, row.body) as D)
  }

  async apply<D extends StoredDocument>(
    id: DocumentId,
    event: EventId,
    decide: (document: D | null) => Commit<D> | null,
  ): Promise<{ readonly applied: boolean; readonly owed: readonly Owed[] }> {
    return this.#turn(id, async () => {
      const marks = this.#marks.take(id)
      let isWritten = false
      try {
        const answer = { id, event, decide: oncePerDocument(decide as Answer['decide']), marks }
        const { applied, owed, hasMarks } = await this.#answer(answer)
        isWritten = hasMarks
        this.#flusher.noteHanded(owed)
        if (hasMarks) this.#flusher.noteWritten(id, marks)
        return { applied, owed }
      } finally {
        if (!isWritten) this.#marks.putBack(id, marks)
      }
    })
  }

  /** By what is remembered, if that will do; what fails or is not written leaves nothing to be remembered. */
  async #answer(answer: Answer): Promise<Answered> {
    const known = this.#known.find(answer.id)
    this.#known.forget(answer.id)
    const asKnown = known === null ? null : await answerAsKnown(this.#parts, answer, known, this.#connections)
    const answered = asKnown ?? (await this.#connections.transaction((run, queue) => commitAnswer(this.#parts, answer, known, run, queue)))
    if (answered.row !== null) this.#known.note(answer.id, answered.row)
    return answered
  }

  async settle(document: DocumentId, effect: EffectId, delivery: Delivery): Promise<MarkKept> {
    this.#requireOpen()
    this.#marks.add(document, effect, delivery)
    this.#flusher.arm()
    return 'by-itself'
  }

  async refOf(document: DocumentId, effect: EffectId): Promise<string | null> {
    const [row] = await this.#find<{ ref: string | null; is_owed: boolean }>(
      document,
      `SELECT (SELECT ref FROM nuchal.sent WHERE document = $1 AND effect_id = $2 ORDER BY seq DESC LIMIT 1) AS ref,
         EXISTS (SELECT FROM nuchal.outbox WHERE document = $1 AND effect_id = $2) AS is_owed`,
      effect,
    )
    if (row?.ref != null) return this.#rows.readRef(document, effect, row.ref)
    return row?.is_owed === true ? (this.#marks.find(document, effect)?.ref ?? null) : null
  }

  async owed(document: DocumentId): Promise<readonly Owed[]> {
    this.#requireOpen()
    const outbox = await readOutbox(this.#connections.run, document)
    const marks = this.#marks.of(document)
    const isOver = (effect: EffectId): boolean => marks.some((mark) => mark.isOver && mark.effect === effect)
    return outbox.filter((row) => !isOver(row.effect_id)).map((row) => toOwed(this.#rows, document, row, marks))
  }

  async documentsOwing(): Promise<readonly DocumentId[]> {
    this.#requireOpen()
    const rows = await this.#connections.run<{ id: DocumentId }>('SELECT id FROM nuchal.document WHERE owing > 0 ORDER BY id')
    const still = await Promise.all(rows.map(async ({ id }) => (await this.owed(id)).length > 0))
    return rows.filter((_, index) => still[index]).map(({ id }) => id)
  }

  async claim(document?: DocumentId): Promise<readonly Owed[]> {
    this.#requireOpen()
    const documents = document === undefined ? await findClaimable(this.#connections.run, this.#presence.id) : [document]
    const claimed: Owed[] = []
    for (const id of documents) {
      const { owed, row } = await this.#turn(id, () => this.#connections.transaction((run, queue) => claimDocument(this.#parts, id, this.#marks, run, queue)))
      if (row !== null) this.#known.amend(id, () => row)
      this.#flusher.noteHanded(owed)
      claimed.push(...owed)
    }
    return claimed
  }

  async findByContact(contact: Contact): Promise<Found | null> {
    this.#requireOpen()
    const [row] = await this.#connections.run<{ id: DocumentId; head: string; owing: number }>(
      'SELECT d.id, d.head, d.owing FROM nuchal.document d JOIN nuchal.contact c ON c.document = d.id WHERE c.key = $1 ORDER BY c.place, d.id LIMIT 1',
      [this.#rows.contact(contact)],
    )
    return row === undefined ? null : { ...this.#rows.readHead(row.id, row.head), owing: row.owing }
  }

  async head(id: DocumentId): Promise<Head | null> {
    return (await this.#heads('WHERE d.id = $1', [id]))[0] ?? null
  }

  async heads(kind?: DocumentKind): Promise<readonly Head[]> {
    return this.#heads('WHERE $1::text IS NULL OR d.kind = $1 ORDER BY d.id', [kind ?? null])
  }

  async due(at: Instant): Promise<readonly Head[]> {
    return this.#heads('WHERE d.next_due_at <= $1 ORDER BY d.next_due_at, d.id', [at])
  }

  async nextDueAt(): Promise<Instant | null> {
    this.#requireOpen()
    const [row] = await this.#connections.run<{ at: Instant | null }>('SELECT min(next_due_at) AS at FROM nuchal.document')
    return row?.at ?? null
  }

  async entries(id: DocumentId): Promise<readonly Entry[]> {
    const rows = await this.#find<{ seq: number; body: string }>(id, 'SELECT seq, body FROM nuchal.entry WHERE document = $1 ORDER BY seq')
    return rows.map(({ seq, body }) => this.#rows.readEntry(id, seq, body))
  }

  async erase(id: DocumentId): Promise<void> {
    await this.#turn(id, async () => {
      await this.#connections.run('SELECT nuchal.erase_document($1)', [id])
      this.#marks.forget(id)
      this.#known.forget(id)
      this.#flusher.forget(id)
    })
  }

  copyOut(): AsyncIterable<DocumentCopy> {
    this.#requireOpen()
    return copyOut(this.#connections, this.#rows)
  }

  async copyIn(copy: DocumentCopy): Promise<void> {
    await this.#turn(copy.document.id, () => this.#connections.transaction((run, queue) => copyIn(this.#parts, copy, run, queue)))
  }

  async #heads(which: string, values: readonly unknown[]): Promise<readonly Head[]> {
    this.#requireOpen()
    const rows = await this.#connections.run<{ id: DocumentId; head: string }>(`SELECT d.id, d.head FROM nuchal.document d ${which}`, values)
    return rows.map(({ id, head }) => this.#rows.readHead(id, head))
  }

  async #find<Row extends object>(id: DocumentId, text: string, ...more: readonly unknown[]): Promise<readonly Row[]> {
    this.#requireOpen()
    return this.#connections.run<Row>(text, [id, ...more])
  }

  #requireOpen(): void {
    if (this.#state !== 'open') throw new StoreError('unavailable', 'The store is not open.')
  }

  async #turn<T>(id: DocumentId, work: () => Promise<T>): Promise<T> {
    this.#requireOpen()
    // Throws on an id that no file could be named after, so that every document can go to any store.
    documentFileName(id)
    return this.#queues.run(id, work)
  }
}

export function createPostgresStore(options: PostgresOptions): PostgresStore {
  return new PostgresStore(options)
}
