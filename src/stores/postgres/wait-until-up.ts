import { setTimeout } from 'node:timers/promises'
import type { Connections } from './connections.ts'
import { DatabaseFailure } from './database-error.ts'

/** Our choice: longer than a database takes to start, and not so long that nobody sees what is wrong. */
const triesAtMost = 30
const everyMs = 1_000
/** `cannot_connect_now`, PostgreSQL manual, appendix A. */
const startingUp = '57P03'

/** A machine that starts database and clinic together starts them in any order. Rejects at once where no server answers. */
export async function waitUntilUp({ run }: Connections): Promise<void> {
  for (let tries = 1; ; tries += 1) {
    try {
      await run('SELECT 1')
      return
    } catch (error) {
      const isStarting = error instanceof DatabaseFailure && error.databaseCode === startingUp
      if (!isStarting || tries === triesAtMost) throw error
      await setTimeout(everyMs)
    }
  }
}
