// One answer as one transaction: the document under its row lock, the record, the outbox and the wake-up, all or nothing.
import { brandAs, type DocumentId, type EffectId, type EventId, type Instant } from '#src/domain/identifier.ts'
import type { Commit, Owed, StoredDocument } from '#src/ports/store.ts'
import { checkCommit } from '../check-commit.ts'
import { rememberedEvents } from '../envelope.ts'
import { keepJson } from '../keep-json.ts'
import type { Queue, Run } from './connections.ts'
import { writeAttempts, writeRefs } from './mark-statements.ts'
import { refsOf, type Mark } from './marks.ts'
import { wakeUpFor } from './need.ts'
import { placeByKind, type Rows } from './rows.ts'
import type { WakeJobs } from './wake-jobs.ts'

export interface CommitParts {
  readonly rows: Rows
  readonly jobs: WakeJobs
  readonly format: number
  /** This process, as the others know it. */
  readonly self: string
  readonly now: () => Instant
}

export interface Answer {
  readonly id: DocumentId
  readonly event: EventId
  readonly decide: (document: StoredDocument | null) => Commit | null
  /** What has become of earlier effects here, to be written along with it. */
  readonly marks: readonly Mark[]
}

export interface Answered {
  readonly applied: boolean
  readonly owed: readonly Owed[]
  /** Whether the marks were written. */
  readonly hasMarks: boolean
}

interface DocumentRow {
  readonly kind: StoredDocument['kind']
  readonly body: string
  readonly contacts: readonly string[]
  readonly owing: number
  readonly sender: string | null
  readonly wake_at: number | null
  readonly outbox_seq: number
  readonly entry_seq: number
  readonly is_repeat: boolean
  /** Nobody else who lives sends what is owed. */
  readonly is_free: boolean
}

interface OutboxRow {
  readonly effect_id: EffectId
  readonly format: number
  readonly effect: string
  readonly attempts: number
}

/** Whether no other process that lives sends what the document `d` owes; `self` is the place of this process's id. */
export function isFree(self: '$1' | '$2'): string {
  return `(d.sender IS NULL OR d.sender = ${self}::uuid OR NOT EXISTS
    (SELECT FROM nuchal.process p WHERE p.id = d.sender AND p.alive_until > now()))`
}

const lockDocument = `
  SELECT d.kind, d.body, d.contacts, d.owing, d.sender, d.wake_at, d.outbox_seq, d.entry_seq,
    $3 = ANY (d.seen) AS is_repeat, ${isFree('$2')} AS is_free
  FROM nuchal.document d WHERE d.id = $1 FOR UPDATE OF d`

const writeRest = `
  gone AS (DELETE FROM nuchal.outbox WHERE document = $1 AND effect_id = ANY ($15::text[])),
  owed AS (
    INSERT INTO nuchal.outbox (document, seq, effect_id, format, effect)
    SELECT $1, $13::bigint - cardinality($16::text[]) + n, id, $3, effect FROM unnest($16::text[], $17::text[]) WITH ORDINALITY AS t (id, effect, n)
  )
  INSERT INTO nuchal.entry (document, seq, body)
  SELECT $1, $14::bigint - cardinality($18::text[]) + n, body FROM unnest($18::text[]) WITH ORDINALITY AS t (body, n)`

const writeChanged = `
  WITH kept AS (
    UPDATE nuchal.document SET kind = $2, format = $3, body = $4, head = $5, contacts = $6,
      seen = (array_append(seen, $7))[greatest(1, cardinality(seen) - ${rememberedEvents - 2}):],
      open_alerts = $8, is_locked = $9, next_due_at = $10, owing = $11, sender = $12, outbox_seq = $13, entry_seq = $14, wake_at = $19
    WHERE id = $1
  ), ${writeRest}`

const writeNew = `
  WITH kept AS (
    INSERT INTO nuchal.document (id, kind, format, body, head, contacts, seen, open_alerts, is_locked, next_due_at, owing, sender, outbox_seq, entry_seq, wake_at)
    VALUES ($1, $2, $3, $4, $5, $6, ARRAY[$7], $8, $9, $10, $11, $12, $13, $14, $19)
  ), ${writeRest}`

export async function commitAnswer(parts: CommitParts, answer: Answer, run: Run, queue: Queue): Promise<Answered> {
  const { id, event, decide, marks } = answer
  const { rows, self } = parts
  const [row] = await run<DocumentRow>(lockDocument, [id, self, event])
  const outbox = row === undefined || row.owing === 0 ? [] : await readOutbox(run, id)
  const isOver = new Set(marks.filter((mark) => mark.isOver).map(({ effect }) => effect))
  const open = outbox.filter((one) => !isOver.has(one.effect_id))
  const maySend = row?.is_free ?? true
  const decided = row?.is_repeat === true ? null : decide(row === undefined ? null : rows.readDocument(id, row.body))
  if (decided === null) {
    if (maySend && open.length > 0) queue('UPDATE nuchal.document SET sender = $2 WHERE id = $1', [id, self])
    return { applied: false, owed: maySend ? open.map((one) => toOwed(rows, id, one, marks)) : [], hasMarks: false }
  }
  const commit = keepJson<Commit>(decided)
  checkCommit(id, row ?? null, commit, parts.format)
  await write(parts, { answer, commit, row: row ?? null, owing: open.length + commit.effects.length, maySend }, run, queue)
  writeAttempts(queue, id, marks)
  writeRefs(queue, rows, id, refsOf(marks).filter(({ effect }) => outbox.some((one) => one.effect_id === effect)))
  const fresh = commit.effects.map((effect): Owed => ({ document: id, effect, attempts: 0 }))
  return { applied: true, owed: maySend ? [...open.map((one) => toOwed(rows, id, one, marks)), ...fresh] : [], hasMarks: true }
}

interface Change {
  readonly answer: Answer
  readonly commit: Commit
  readonly row: DocumentRow | null
  readonly owing: number
  readonly maySend: boolean
}

async function write({ rows, jobs, self, now }: CommitParts, change: Change, run: Run, queue: Queue): Promise<void> {
  const { answer, commit, row, owing, maySend } = change
  const { document, head, entries, effects } = commit
  const { id } = answer
  const [outboxSeq, entrySeq] = [(row?.outbox_seq ?? 0) + effects.length, (row?.entry_seq ?? 0) + entries.length]
  const place = placeByKind[head.kind]
  const contacts = place === null ? [] : [...new Set(head.contacts.map((contact) => rows.contact(contact)))]
  const wakeAt = wakeUpFor({ nextDueAt: head.nextDueAt, owing }, row?.wake_at ?? null, now())
  if (wakeAt !== null) await jobs.enqueue(run, id, wakeAt)
  queue(row === null ? writeNew : writeChanged, [
    id,
    document.kind,
    document.format,
    rows.document(document),
    rows.head(head),
    contacts,
    answer.event,
    head.openAlerts,
    head.isLocked,
    head.nextDueAt,
    owing,
    owing === 0 ? null : maySend ? self : (row?.sender ?? null),
    outboxSeq,
    entrySeq,
    answer.marks.filter((mark) => mark.isOver).map(({ effect }) => effect),
    effects.map((effect) => effect.id),
    effects.map((effect) => rows.effect(id, effect)),
    entries.map((entry, index) => rows.entry(id, entrySeq - entries.length + index + 1, entry)),
    wakeAt ?? row?.wake_at ?? null,
  ])
  if (isSame(row?.contacts ?? [], contacts)) return
  queue('DELETE FROM nuchal.contact WHERE document = $1', [id])
  queue('INSERT INTO nuchal.contact (key, document, place) SELECT key, $1, $3 FROM unnest($2::text[]) AS key', [id, contacts, place ?? 0])
}

/** What a document owes, oldest first. */
export function readOutbox(run: Run, id: DocumentId): Promise<readonly OutboxRow[]> {
  return run<OutboxRow>('SELECT effect_id, format, effect, attempts FROM nuchal.outbox WHERE document = $1 ORDER BY seq', [id])
}

export function toOwed(rows: Rows, id: DocumentId, { effect_id, format, effect, attempts }: OutboxRow, marks: readonly Mark[]): Owed {
  const tries = marks.find((mark) => mark.effect === effect_id)?.tries ?? 0
  return { document: brandAs<DocumentId>(id), effect: rows.readEffect(id, effect_id, format, effect), attempts: attempts + tries }
}

function isSame(before: readonly string[], after: readonly string[]): boolean {
  return before.length === after.length && before.every((one, index) => one === after[index])
}
