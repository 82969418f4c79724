// Which process sends what a document owes: the one that finds nobody else at it who lives.
import type { DocumentId, EffectId } from '#src/domain/identifier.ts'
import type { Owed } from '#src/ports/store.ts'
import { isFree, readOutbox, toOwed, type CommitParts } from './commit-answer.ts'
import type { Queue, Run } from './connections.ts'
import type { KnownRow } from './known-rows.ts'
import type { Marks } from './marks.ts'
import { wakeUpFor } from './need.ts'

/** Documents that owe something which no living process sends. */
export async function findClaimable(run: Run, self: string): Promise<readonly DocumentId[]> {
  const rows = await run<{ id: DocumentId }>(`SELECT d.id FROM nuchal.document d WHERE d.owing > 0 AND ${isFree('$1')} ORDER BY d.id`, [self])
  return rows.map(({ id }) => id)
}

interface ClaimRow {
  readonly owing: number
  readonly sender: string | null
  readonly next_due_at: number | null
  readonly wake_at: number | null
  readonly is_free: boolean
}

export interface Claimed {
  readonly owed: readonly Owed[]
  /** What the row says now of who sends and when it is looked at; null where there is no row. */
  readonly row: Pick<KnownRow, 'sender' | 'wakeAt'> | null
}

/** Takes what the document owes, if it is free, and sees to it that it is looked at again while there is a need. */
export async function claimDocument(parts: CommitParts, id: DocumentId, marks: Marks, run: Run, queue: Queue): Promise<Claimed> {
  const { rows, jobs, self, now } = parts
  const [row] = await run<ClaimRow>(`SELECT d.owing, d.sender, d.next_due_at, d.wake_at, ${isFree('$2')} AS is_free FROM nuchal.document d WHERE d.id = $1 FOR UPDATE OF d`, [id, self])
  if (row === undefined) return { owed: [], row: null }
  // One that should have come by now is not waited for any more.
  const comingAt = row.wake_at !== null && row.wake_at <= now() ? null : row.wake_at
  // What is due is fired right after this; only if that fails it must be looked at again.
  const nextDueAt = row.next_due_at !== null && row.next_due_at <= now() ? null : row.next_due_at
  const isDue = row.next_due_at !== null && nextDueAt === null
  const wakeAt = wakeUpFor({ nextDueAt, owing: isDue ? 1 : row.owing }, comingAt, now())
  if (wakeAt !== null) await jobs.enqueue(run, id, wakeAt)
  const takes = row.is_free && row.owing > 0
  const outbox = takes ? await readOutbox(run, id) : []
  const after = { wakeAt: wakeAt ?? comingAt, sender: takes ? self : row.sender }
  queue('UPDATE nuchal.document SET wake_at = $2, sender = $3 WHERE id = $1', [id, after.wakeAt, after.sender])
  const own = marks.of(id)
  const isOver = (effect: EffectId): boolean => own.some((mark) => mark.isOver && mark.effect === effect)
  return { owed: outbox.filter((one) => !isOver(one.effect_id)).map((one) => toOwed(rows, id, one, own)), row: after }
}
