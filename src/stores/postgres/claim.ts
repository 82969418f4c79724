// Which process sends what a document owes: the one that finds nobody else at it who lives.
import type { DocumentId, EffectId } from '#src/domain/identifier.ts'
import type { Owed } from '#src/ports/store.ts'
import { isFree, readOutbox, toOwed, type CommitParts } from './commit-answer.ts'
import type { Queue, Run } from './connections.ts'
import type { Marks } from './marks.ts'
import { wakeUpFor } from './need.ts'

/** Documents that owe something which no living process sends. */
export async function findClaimable(run: Run, self: string): Promise<readonly DocumentId[]> {
  const rows = await run<{ id: DocumentId }>(`SELECT d.id FROM nuchal.document d WHERE d.owing > 0 AND ${isFree('$1')} ORDER BY d.id`, [self])
  return rows.map(({ id }) => id)
}

interface ClaimRow {
  readonly owing: number
  readonly next_due_at: number | null
  readonly wake_at: number | null
  readonly is_free: boolean
}

/** Takes what the document owes, if it is free, and sees to it that it is looked at again while there is a need. */
export async function claimDocument(parts: CommitParts, id: DocumentId, marks: Marks, run: Run, queue: Queue): Promise<readonly Owed[]> {
  const { rows, jobs, self, now } = parts
  const [row] = await run<ClaimRow>(`SELECT d.owing, d.next_due_at, d.wake_at, ${isFree('$2')} AS is_free FROM nuchal.document d WHERE d.id = $1 FOR UPDATE OF d`, [id, self])
  if (row === undefined) return []
  // One that should have come by now is not waited for any more.
  const comingAt = row.wake_at !== null && row.wake_at <= now() ? null : row.wake_at
  // What is due is fired right after this; only if that fails it must be looked at again.
  const nextDueAt = row.next_due_at !== null && row.next_due_at <= now() ? null : row.next_due_at
  const isDue = row.next_due_at !== null && nextDueAt === null
  const wakeAt = wakeUpFor({ nextDueAt, owing: isDue ? 1 : row.owing }, comingAt, now())
  if (wakeAt !== null) await jobs.enqueue(run, id, wakeAt)
  const takes = row.is_free && row.owing > 0
  const outbox = takes ? await readOutbox(run, id) : []
  queue('UPDATE nuchal.document SET wake_at = $2, sender = CASE WHEN $3 THEN $4 ELSE sender END WHERE id = $1', [id, wakeAt ?? comingAt, takes, self])
  const own = marks.of(id)
  const isOver = (effect: EffectId): boolean => own.some((mark) => mark.isOver && mark.effect === effect)
  return outbox.filter((one) => !isOver(one.effect_id)).map((one) => toOwed(rows, id, one, own))
}
