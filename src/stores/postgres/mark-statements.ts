// How marks are written: along with a document's commit, or those of many documents at once.
import type { DocumentId, EffectId } from '#src/domain/identifier.ts'
import { rememberedRefs } from '../envelope.ts'
import type { Queue, Run } from './connections.ts'
import { refsOf, type Mark } from './marks.ts'
import type { Rows } from './rows.ts'

/** Tries in vain, of effects that are still owed. */
export function writeAttempts(queue: Queue, id: DocumentId, marks: readonly Mark[]): void {
  const tried = marks.filter(({ tries, isOver }) => tries > 0 && !isOver)
  if (tried.length === 0) return
  queue(
    `UPDATE nuchal.outbox o SET attempts = attempts + m.tries FROM unnest($2::text[], $3::int[]) AS m (effect_id, tries)
     WHERE o.document = $1 AND o.effect_id = m.effect_id`,
    [id, tried.map(({ effect }) => effect), tried.map(({ tries }) => tries)],
  )
}

/** Whether a row of `sent` is among the oldest, which go when so many are added. */
export function isBeyondRemembered(document: string, added: string): string {
  return `document = ${document} AND seq <= (SELECT seq FROM nuchal.sent WHERE document = ${document} ORDER BY seq DESC OFFSET ${rememberedRefs} - ${added} LIMIT 1)`
}

/** The networks' names of what was sent; the oldest beyond those remembered go. */
export function writeRefs(queue: Queue, rows: Rows, id: DocumentId, refs: readonly { readonly effect: EffectId; readonly ref: string }[]): void {
  if (refs.length === 0) return
  queue(
    `WITH added AS (
       INSERT INTO nuchal.sent (document, effect_id, ref) SELECT $1, effect_id, ref FROM unnest($2::text[], $3::text[]) WITH ORDINALITY AS t (effect_id, ref, n) ORDER BY n
     )
     DELETE FROM nuchal.sent WHERE ${isBeyondRemembered('$1', '$4::int')}`,
    [id, refs.map(({ effect }) => effect), refs.map(({ effect, ref }) => rows.ref(id, effect, ref)), refs.length],
  )
}

export interface Flushed {
  readonly id: DocumentId
  /** What the document owes after the marks, and who sends it. */
  readonly owing: number
  readonly sender: string | null
}

/** The marks of many documents in one transaction; whoever owes nothing more is free for any process. */
export async function writeAllMarks(run: Run, queue: Queue, rows: Rows, all: ReadonlyMap<DocumentId, readonly Mark[]>): Promise<readonly Flushed[]> {
  // In one order for every process, so that two of them never wait for each other.
  await run('SELECT FROM nuchal.document WHERE id = ANY ($1::text[]) ORDER BY id FOR UPDATE', [[...all.keys()]])
  const pairs = [...all].flatMap(([id, marks]) => marks.map((mark) => ({ id, mark })))
  const over = pairs.filter(({ mark }) => mark.isOver)
  const gone = await run<{ document: DocumentId; effect_id: EffectId }>(
    `DELETE FROM nuchal.outbox o USING unnest($1::text[], $2::text[]) AS m (document, effect_id)
     WHERE o.document = m.document AND o.effect_id = m.effect_id RETURNING o.document, o.effect_id`,
    [over.map(({ id }) => id), over.map(({ mark }) => mark.effect)],
  )
  const isGone = new Set(gone.map(({ document, effect_id }) => keyOf(document, effect_id)))
  for (const [id, marks] of all) {
    writeAttempts(queue, id, marks)
    writeRefs(queue, rows, id, refsOf(marks).filter(({ effect }) => isGone.has(keyOf(id, effect))))
  }
  return run<Flushed>(
    `WITH counts AS (SELECT document, count(*)::int AS n FROM unnest($1::text[]) AS document GROUP BY document)
     UPDATE nuchal.document d SET owing = owing - n, sender = CASE WHEN owing = n THEN NULL ELSE sender END
     FROM counts WHERE d.id = counts.document RETURNING d.id, d.owing, d.sender`,
    [gone.map(({ document }) => document)],
  )
}

function keyOf(document: DocumentId, effect: EffectId): string {
  return `${document}\n${effect}`
}
