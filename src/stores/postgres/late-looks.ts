import type { DocumentId, Instant } from '#src/domain/identifier.ts'
import type { Connections } from './connections.ts'

/** Our choices: later than any wake-up that comes by itself, and soon enough for nobody to have waited a minute. */
const lateMs = 20_000
const everyMs = 15_000
const atOnce = 500

export interface LateLooks {
  start(wake: (document: DocumentId) => Promise<void>): void
  stop(): void
}

/** Due for too long, or owing what nobody who lives has to send: a process is dead, or ended before it had sent it. */
const findLate = `
  (SELECT id FROM nuchal.document WHERE next_due_at <= $1 ORDER BY next_due_at LIMIT $2)
  UNION
  (SELECT d.id FROM nuchal.document d WHERE d.owing > 0
     AND NOT EXISTS (SELECT FROM nuchal.process p WHERE p.id = d.sender AND p.alive_until > now()) LIMIT $2)`

/**
 * The net under the wake-ups: what was left lying is looked at all the same. So a job table that was emptied, a clock
 * that was set or a restored backup costs seconds, and no reminder and no alert.
 */
export function createLateLooks(connections: Connections, now: () => Instant): LateLooks {
  let timer: NodeJS.Timeout | null = null
  let isLooking = false

  async function look(wake: (document: DocumentId) => Promise<void>): Promise<void> {
    if (isLooking) return
    isLooking = true
    try {
      const rows = await connections.run<{ id: DocumentId }>(findLate, [now() - lateMs, atOnce])
      await Promise.allSettled(rows.map(({ id }) => wake(id)))
    } catch {
      // The database is away: the next look may find it.
    } finally {
      isLooking = false
    }
  }

  return {
    start(wake) {
      void look(wake)
      timer = setInterval(() => void look(wake), everyMs).unref()
    },
    stop() {
      if (timer !== null) clearInterval(timer)
      timer = null
    },
  }
}
