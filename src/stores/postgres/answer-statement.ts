// What one answer writes, as one statement: the row, the record, the outbox and what was sent, all of it or nothing.
import type { DocumentId, EventId } from '#src/domain/identifier.ts'
import type { Commit } from '#src/ports/store.ts'
import { rememberedEvents } from '../envelope.ts'
import type { KnownRow } from './known-rows.ts'
import { isBeyondRemembered } from './mark-statements.ts'
import { refsOf, type Mark } from './marks.ts'
import { placeByKind, type Rows } from './rows.ts'

/** The values stand in `toValues`, in this order. */
const values = [
  'id', 'kind', 'format', 'body', 'head', 'contacts', 'event', 'openAlerts', 'isLocked', 'nextDueAt', 'owing', 'sender', 'outboxSeq', 'entrySeq', 'wakeAt',
  'over', 'effectIds', 'effects', 'entries', 'refIds', 'refs',
] as const
/** What an answer without reading takes for granted. */
const taken = ['lastEvent', 'takenEntrySeq', 'takenOutboxSeq', 'takenOwing', 'takenSender', 'takenWakeAt'] as const

type Name = (typeof values)[number] | (typeof taken)[number]

/** `:name` becomes the place of the value. */
function numbered(text: string): string {
  const names: readonly string[] = [...values, ...taken]
  return text.replace(/(?<!:):([a-z]\w*)/gi, (_, name: Name) => `$${names.indexOf(name) + 1}`)
}

const rest = `
  gone AS (DELETE FROM nuchal.outbox USING kept WHERE document = :id AND effect_id = ANY (:over::text[])),
  owed AS (
    INSERT INTO nuchal.outbox (document, seq, effect_id, format, effect)
    SELECT :id, :outboxSeq::bigint - cardinality(:effectIds::text[]) + n, t.id, :format, effect
    FROM kept, unnest(:effectIds::text[], :effects::text[]) WITH ORDINALITY AS t (id, effect, n)
  ),
  written AS (
    INSERT INTO nuchal.entry (document, seq, body)
    SELECT :id, :entrySeq::bigint - cardinality(:entries::text[]) + n, t.body FROM kept, unnest(:entries::text[]) WITH ORDINALITY AS t (body, n)
  ),
  told AS (
    INSERT INTO nuchal.sent (document, effect_id, ref)
    SELECT :id, t.effect_id, t.ref FROM kept, unnest(:refIds::text[], :refs::text[]) WITH ORDINALITY AS t (effect_id, ref, n) ORDER BY n
  ),
  forgotten AS (DELETE FROM nuchal.sent USING kept WHERE ${isBeyondRemembered(':id', 'cardinality(:refIds::text[])')})
  SELECT FROM kept`

const change = `
  UPDATE nuchal.document SET kind = :kind, format = :format, body = :body, head = :head, contacts = :contacts,
    seen = (array_append(seen, :event))[greatest(1, cardinality(seen) - ${rememberedEvents - 2}):],
    open_alerts = :openAlerts, is_locked = :isLocked, next_due_at = :nextDueAt, owing = :owing, sender = :sender,
    outbox_seq = :outboxSeq, entry_seq = :entrySeq, wake_at = :wakeAt
  WHERE id = :id`

/** Each gives one row where it was written and none where it was not. */
export const answerStatements = {
  /** The row is locked. */
  changed: numbered(`WITH kept AS (${change} RETURNING 1), ${rest}`),
  /** Nothing is written where the row is another than is taken for granted, or knows the event. */
  asKnown: numbered(`WITH kept AS (${change}
    AND seen[cardinality(seen)] = :lastEvent AND entry_seq = :takenEntrySeq AND outbox_seq = :takenOutboxSeq
    AND owing = :takenOwing AND sender IS NOT DISTINCT FROM :takenSender::uuid AND wake_at IS NOT DISTINCT FROM :takenWakeAt
    AND :event <> ALL (seen) RETURNING 1), ${rest}`),
  /** There is no row yet. */
  first: numbered(`WITH kept AS (
    INSERT INTO nuchal.document (id, kind, format, body, head, contacts, seen, open_alerts, is_locked, next_due_at, owing, sender, outbox_seq, entry_seq, wake_at)
    VALUES (:id, :kind, :format, :body, :head, :contacts, ARRAY[:event], :openAlerts, :isLocked, :nextDueAt, :owing, :sender, :outboxSeq, :entrySeq, :wakeAt)
    RETURNING 1), ${rest}`),
} as const

export interface Written {
  readonly id: DocumentId
  readonly event: EventId
  /** Kept already: never changed again. */
  readonly commit: Commit
  /** Of effects that the row owed. */
  readonly marks: readonly Mark[]
  /** The row as it is to be. */
  readonly after: KnownRow
}

export function toValues(rows: Rows, { id, event, commit, marks, after }: Written): readonly unknown[] {
  const { document, head, entries, effects } = commit
  const refs = refsOf(marks)
  const named: Record<(typeof values)[number], unknown> = {
    id,
    kind: document.kind,
    format: document.format,
    body: rows.document(document),
    head: rows.head(head),
    contacts: after.contacts,
    event,
    openAlerts: head.openAlerts,
    isLocked: head.isLocked,
    nextDueAt: head.nextDueAt,
    owing: after.owed.length,
    sender: after.sender,
    outboxSeq: after.outboxSeq,
    entrySeq: after.entrySeq,
    wakeAt: after.wakeAt,
    over: marks.filter(({ isOver }) => isOver).map(({ effect }) => effect),
    effectIds: effects.map((effect) => effect.id),
    effects: effects.map((effect) => rows.effect(id, effect)),
    entries: entries.map((entry, index) => rows.entry(id, after.entrySeq - entries.length + index + 1, entry)),
    refIds: refs.map(({ effect }) => effect),
    refs: refs.map(({ effect, ref }) => rows.ref(id, effect, ref)),
  }
  return values.map((name) => named[name])
}

/** To be added to those of {@link toValues}. */
export function takenValues({ events, entrySeq, outboxSeq, owed, sender, wakeAt }: KnownRow): readonly unknown[] {
  return [events.at(-1), entrySeq, outboxSeq, owed.length, sender, wakeAt]
}

/** Contacts of a document as they are looked up by. */
export function contactsOf(rows: Rows, { head }: Commit): readonly string[] {
  return placeByKind[head.kind] === null ? [] : [...new Set(head.contacts.map((contact) => rows.contact(contact)))]
}
