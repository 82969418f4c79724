// One answer, all or nothing: the document under its row lock, the record, the outbox and the wake-up.
import { brandAs, type DocumentId, type EffectId, type EventId, type Instant } from '#src/domain/identifier.ts'
import type { Commit, Owed, StoredDocument } from '#src/ports/store.ts'
import { checkCommit } from '../check-commit.ts'
import { rememberedEvents } from '../envelope.ts'
import { keepJson } from '../keep-json.ts'
import { answerStatements, contactsOf, takenValues, toValues, type Written } from './answer-statement.ts'
import type { Connections, Queue, Run } from './connections.ts'
import type { KnownRow } from './known-rows.ts'
import { writeAttempts } from './mark-statements.ts'
import type { Mark } from './marks.ts'
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
  /** As it stands now; null where nothing was written. */
  readonly row: KnownRow | null
}

interface DocumentRow {
  readonly kind: StoredDocument['kind']
  /** Null: it is the one that is remembered. */
  readonly body: string | null
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
  SELECT d.kind, d.contacts, d.owing, d.sender, d.wake_at, d.outbox_seq, d.entry_seq, $3 = ANY (d.seen) AS is_repeat, ${isFree('$2')} AS is_free,
    CASE WHEN d.seen[cardinality(d.seen)] = $4 AND d.entry_seq = $5 AND d.outbox_seq = $6 THEN NULL ELSE d.body END AS body
  FROM nuchal.document d WHERE d.id = $1 FOR UPDATE OF d`

/**
 * By what is remembered of the row, without reading it first: one statement, and one trip to the database. Null where it cannot
 * be done so, and then nothing was written: the row is another by now, others send what it owes, or there is more to write.
 */
export async function answerAsKnown(parts: CommitParts, answer: Answer, known: KnownRow, connections: Connections): Promise<Answered | null> {
  const { rows, jobs, self } = parts
  const marks = answer.marks.filter(({ effect }) => known.owed.includes(effect))
  const isSettled = known.owed.every((effect) => marks.some((mark) => mark.isOver && mark.effect === effect))
  const isOthers = known.sender !== null && known.sender !== self
  if (!isSettled || isOthers || known.events.includes(answer.event)) return null
  const commit = decide(parts, answer, known.document)
  if (commit === null || !isSame(known.contacts, contactsOf(rows, commit))) return null
  const { written, wakesAt } = changeOf(parts, { ...answer, marks }, commit, known, { open: [], maySend: true })
  const values = [...toValues(rows, written), ...takenValues(known)]
  const write = async (run: Run): Promise<boolean> => (await run(answerStatements.asKnown, values)).length > 0
  const writeAndWake = async (run: Run, at: Instant): Promise<boolean> => {
    const isWritten = await write(run)
    if (isWritten) await jobs.enqueue(run, answer.id, at)
    return isWritten
  }
  const isWritten = wakesAt === null ? await write(connections.run) : await connections.transaction((run) => writeAndWake(run, wakesAt))
  return isWritten ? { applied: true, owed: freshlyOwed(answer.id, commit), hasMarks: true, row: written.after } : null
}

/** Within a transaction, the row read and locked first; `known` spares it the document where that is still the same. */
export async function commitAnswer(parts: CommitParts, answer: Answer, known: KnownRow | null, run: Run, queue: Queue): Promise<Answered> {
  const { id, event, marks } = answer
  const { rows, jobs, self } = parts
  const [row] = await run<DocumentRow>(lockDocument, [id, self, event, known?.events.at(-1), known?.entrySeq, known?.outboxSeq])
  const outbox = row === undefined || row.owing === 0 ? [] : await readOutbox(run, id)
  const isOver = new Set(marks.filter((mark) => mark.isOver).map(({ effect }) => effect))
  const open = outbox.filter((one) => !isOver.has(one.effect_id))
  const maySend = row?.is_free ?? true
  const isKnown = row?.body === null
  const document = row === undefined ? null : row.body === null ? (known?.document ?? null) : rows.readDocument(id, row.body)
  const commit = row?.is_repeat === true ? null : decide(parts, answer, document)
  if (commit === null) {
    if (maySend && open.length > 0) queue('UPDATE nuchal.document SET sender = $2 WHERE id = $1', [id, self])
    return { applied: false, owed: maySend ? open.map((one) => toOwed(rows, id, one, marks)) : [], hasMarks: false, row: null }
  }
  const ofOutbox = marks.filter(({ effect }) => outbox.some((one) => one.effect_id === effect))
  const before: Before = {
    events: isKnown ? (known?.events ?? []) : [],
    entrySeq: row?.entry_seq ?? 0,
    outboxSeq: row?.outbox_seq ?? 0,
    sender: row?.sender ?? null,
    wakeAt: row?.wake_at ?? null,
  }
  const { written, wakesAt } = changeOf(parts, { ...answer, marks: ofOutbox }, commit, before, { open: open.map((one) => one.effect_id), maySend })
  if (wakesAt !== null) await jobs.enqueue(run, id, wakesAt)
  queue(row === undefined ? answerStatements.first : answerStatements.changed, toValues(rows, written))
  const { contacts } = written.after
  if (!isSame(row?.contacts ?? [], contacts)) {
    queue('DELETE FROM nuchal.contact WHERE document = $1', [id])
    queue('INSERT INTO nuchal.contact (key, document, place) SELECT key, $1, $3 FROM unnest($2::text[]) AS key', [id, contacts, placeByKind[commit.head.kind] ?? 0])
  }
  writeAttempts(queue, id, marks)
  const owed = maySend ? [...open.map((one) => toOwed(rows, id, one, marks)), ...freshlyOwed(id, commit)] : []
  return { applied: true, owed, hasMarks: true, row: written.after }
}

/** So that a document is asked of once, whichever way it is then written. */
export function oncePerDocument(decide: Answer['decide']): Answer['decide'] {
  let last: { readonly document: StoredDocument | null; readonly commit: Commit | null } | null = null
  return (document) => {
    if (last === null || last.document !== document || document === null) last = { document, commit: decide(document) }
    return last.commit
  }
}

function decide({ format }: CommitParts, { id, decide: ask }: Answer, document: StoredDocument | null): Commit | null {
  const decided = ask(document)
  if (decided === null) return null
  const commit = keepJson<Commit>(decided)
  checkCommit(id, document, commit, format)
  return commit
}

type Before = Pick<KnownRow, 'events' | 'entrySeq' | 'outboxSeq' | 'sender' | 'wakeAt'>

/** `open`: what is still owed; `wakesAt`: when a wake-up has to come, since none is on its way that comes soon enough. */
function changeOf(
  { rows, self, now }: CommitParts,
  { id, event, marks }: Answer,
  commit: Commit,
  before: Before,
  { open, maySend }: { readonly open: readonly EffectId[]; readonly maySend: boolean },
): { readonly written: Written; readonly wakesAt: Instant | null } {
  const { document, head, entries, effects } = commit
  const owed = [...open, ...effects.map((effect) => effect.id)]
  const wakesAt = wakeUpFor({ nextDueAt: head.nextDueAt, owing: owed.length }, before.wakeAt, now())
  const after: KnownRow = {
    document,
    events: [...before.events, event].slice(-rememberedEvents),
    entrySeq: before.entrySeq + entries.length,
    outboxSeq: before.outboxSeq + effects.length,
    contacts: contactsOf(rows, commit),
    owed,
    sender: owed.length === 0 ? null : maySend ? self : before.sender,
    wakeAt: wakesAt ?? before.wakeAt,
  }
  return { written: { id, event, commit, marks, after }, wakesAt }
}

function freshlyOwed(document: DocumentId, { effects }: Commit): readonly Owed[] {
  return effects.map((effect) => ({ document, effect, attempts: 0 }))
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
