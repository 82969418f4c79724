// Whole documents out of and into the database, for backups and for another store.
import type { Entry } from '#src/domain/entry.ts'
import type { DocumentId, EffectId, EventId } from '#src/domain/identifier.ts'
import type { DocumentCopy } from '#src/ports/archive.ts'
import { StoreError } from '#src/ports/store.ts'
import { checkCommit } from '../check-commit.ts'
import { rememberedEvents, rememberedRefs } from '../envelope.ts'
import { readOutbox, toOwed, type CommitParts } from './commit-answer.ts'
import type { Connections, Queue, Run } from './connections.ts'
import { wakeUpFor } from './need.ts'
import { placeByKind, type Rows } from './rows.ts'

/** In one snapshot, so that what one document has told another is with one of them. */
export async function* copyOut({ transaction }: Connections, rows: Rows): AsyncGenerator<DocumentCopy> {
  const handed = createHandOver<DocumentCopy>()
  const reading = transaction(async (run) => {
    const ids = await run<{ id: DocumentId }>('SELECT id FROM nuchal.document ORDER BY id')
    for (const { id } of ids) if (!(await handed.give(await readCopy(run, rows, id)))) return
  }, 'snapshot').then(handed.end, handed.fail)
  try {
    for (let next = await handed.take(); next !== null; next = await handed.take()) yield next
  } finally {
    handed.stop()
    await reading
  }
}

async function readCopy(run: Run, rows: Rows, id: DocumentId): Promise<DocumentCopy> {
  const [row] = await run<{ body: string; head: string; seen: readonly EventId[] }>('SELECT body, head, seen FROM nuchal.document WHERE id = $1', [id])
  if (row === undefined) throw new StoreError('damaged', `The document ${id} is missing from the snapshot.`)
  const outbox = await readOutbox(run, id)
  const sent = await run<{ effect_id: EffectId; ref: string }>('SELECT effect_id, ref FROM nuchal.sent WHERE document = $1 ORDER BY seq', [id])
  const entries = await run<{ seq: number; body: string }>('SELECT seq, body FROM nuchal.entry WHERE document = $1 ORDER BY seq', [id])
  return {
    document: rows.readDocument(id, row.body),
    head: rows.readHead(id, row.head),
    seen: row.seen,
    owed: outbox.map((one) => toOwed(rows, id, one, [])).map(({ effect, attempts }) => ({ effect, attempts })),
    refs: sent.map(({ effect_id, ref }) => ({ effect: effect_id, ref: rows.readRef(id, effect_id, ref) })),
    entries: entries.map(({ seq, body }): Entry => rows.readEntry(id, seq, body)),
  }
}

export async function copyIn({ rows, jobs, format, now }: CommitParts, copy: DocumentCopy, run: Run, queue: Queue): Promise<void> {
  const { document, head, owed, entries } = copy
  const { id } = document
  checkCommit(id, null, { document, head, entries, effects: [], closesVolume: false }, format)
  const [standing] = await run('SELECT FROM nuchal.document WHERE id = $1', [id])
  if (standing !== undefined) throw new StoreError('unavailable', `The document ${id} stands in the database already. Copy into an empty one.`)
  const place = placeByKind[head.kind]
  const contacts = place === null ? [] : [...new Set(head.contacts.map((contact) => rows.contact(contact)))]
  const wakeAt = wakeUpFor({ nextDueAt: head.nextDueAt, owing: owed.length }, null, now())
  if (wakeAt !== null) await jobs.enqueue(run, id, wakeAt)
  queue(
    `INSERT INTO nuchal.document (id, kind, format, body, head, contacts, seen, open_alerts, is_locked, next_due_at, owing, outbox_seq, entry_seq, wake_at)
     VALUES ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10, $11::int, $11::int, $12, $13)`,
    [id, document.kind, document.format, rows.document(document), rows.head(head), contacts, copy.seen.slice(-rememberedEvents),
      head.openAlerts, head.isLocked, head.nextDueAt, owed.length, entries.length, wakeAt],
  )
  queue('INSERT INTO nuchal.contact (key, document, place) SELECT key, $1, $3 FROM unnest($2::text[]) AS key', [id, contacts, place ?? 0])
  queue(
    `INSERT INTO nuchal.outbox (document, seq, effect_id, format, effect, attempts)
     SELECT $1, n, id, $2::int, effect, attempts FROM unnest($3::text[], $4::text[], $5::int[]) WITH ORDINALITY AS t (id, effect, attempts, n)`,
    [id, format, owed.map(({ effect }) => effect.id), owed.map(({ effect }) => rows.effect(id, effect)), owed.map(({ attempts }) => attempts)],
  )
  const refs = copy.refs.slice(-rememberedRefs)
  queue(
    `INSERT INTO nuchal.sent (document, effect_id, ref) SELECT $1, effect_id, ref
     FROM unnest($2::text[], $3::text[]) WITH ORDINALITY AS t (effect_id, ref, n) ORDER BY n`,
    [id, refs.map(({ effect }) => effect), refs.map(({ effect, ref }) => rows.ref(id, effect, ref))],
  )
  queue('INSERT INTO nuchal.entry (document, seq, body) SELECT $1, n, body FROM unnest($2::text[]) WITH ORDINALITY AS t (body, n)', [
    id,
    entries.map((entry, index) => rows.entry(id, index + 1, entry)),
  ])
}

/** Lets a transaction give one thing at a time to whoever takes them, at the taker's pace. */
interface HandOver<T> {
  /** Resolves when it was taken; false once the taker has stopped. */
  give(value: T): Promise<boolean>
  /** Null at the end; rejects with what {@link fail} was told. */
  take(): Promise<T | null>
  readonly end: () => void
  readonly fail: (error: unknown) => void
  stop(): void
}

function createHandOver<T>(): HandOver<T> {
  type Item = { readonly kind: 'value'; readonly value: T; readonly taken: (goesOn: boolean) => void } | { readonly kind: 'end' } | { readonly kind: 'failed'; readonly error: unknown }
  const items: Item[] = []
  let isStopped = false
  let wakeTaker: () => void = () => {}
  const put = (item: Item): void => {
    items.push(item)
    wakeTaker()
  }
  return {
    give: (value) => (isStopped ? Promise.resolve(false) : new Promise((taken) => put({ kind: 'value', value, taken }))),
    async take() {
      while (items.length === 0) await new Promise<void>((resolve) => void (wakeTaker = resolve))
      const item = items.shift() as Item
      if (item.kind === 'end') return null
      if (item.kind === 'failed') throw item.error
      item.taken(true)
      return item.value
    },
    end: () => put({ kind: 'end' }),
    fail: (error) => put({ kind: 'failed', error }),
    stop() {
      isStopped = true
      for (const item of items) if (item.kind === 'value') item.taken(false)
    },
  }
}
