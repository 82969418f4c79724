import { randomUUID } from 'node:crypto'
import type { Connections } from './connections.ts'

/**
 * Our choices: a process that has been silent for so long is taken for dead, and another sends what it had to send. The
 * database's clock decides, so that the machines' clocks need not agree.
 */
const aliveFor = '15 seconds'
const beatEveryMs = 5_000

/** That this process is at work, as the others see it. */
export interface Presence {
  readonly id: string
  begin(): Promise<void>
  /** How many are at work, this one included; as of the last beat. */
  processes(): number
  end(): Promise<void>
}

export function createPresence(connections: Connections): Presence {
  const id = randomUUID()
  let count = 1
  let beats: NodeJS.Timeout | null = null

  async function beat(): Promise<void> {
    const [found] = await connections.run<{ count: number }>(
      `WITH mine AS (
         INSERT INTO nuchal.process (id, alive_until) VALUES ($1, now() + $2::interval)
         ON CONFLICT (id) DO UPDATE SET alive_until = excluded.alive_until
       )
       SELECT count(*) AS count FROM nuchal.process WHERE alive_until > now() AND id <> $1`,
      [id, aliveFor],
    )
    count = 1 + (found?.count ?? 0)
  }

  return {
    id,
    async begin() {
      await connections.run(`DELETE FROM nuchal.process WHERE alive_until < now() - interval '1 day'`)
      await beat()
      // A beat that fails is made up for by the next one; meanwhile another process may take over, and messages come twice.
      beats = setInterval(() => void beat().catch(() => {}), beatEveryMs).unref()
    },
    processes: () => count,
    async end() {
      if (beats !== null) clearInterval(beats)
      await connections.run('UPDATE nuchal.document SET sender = NULL WHERE sender = $1', [id])
      await connections.run('DELETE FROM nuchal.process WHERE id = $1', [id])
    },
  }
}
