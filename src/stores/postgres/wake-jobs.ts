import { setTimeout } from 'node:timers/promises'
import PgBoss from 'pg-boss'
import type { DocumentId, Instant } from '#src/domain/identifier.ts'
import type { WakeUps } from '#src/ports/store.ts'
import type { Connections, Run } from './connections.ts'

/** The wake-ups: jobs that carry a document's id and an instant, and nothing of anybody. */
export interface WakeJobs extends WakeUps {
  open(): Promise<void>
  /** To be sent within the caller's transaction. */
  enqueue(run: Run, document: DocumentId, at: Instant): Promise<void>
  close(): Promise<void>
}

const queue = 'wake-up'
/**
 * So that what a dead process had in hand is another's within a minute: 20 s until it counts as dead, at most 15 s until
 * that is noticed, 5 s until it is tried again, and the time between two looks. (The library's own default is 15 minutes.)
 */
const expireInSeconds = 20
const maintenanceIntervalSeconds = 15
const retryDelay = 5
/** For days on end: a wake-up is never given up while a database or a network is away. */
const retryLimit = 100_000
const pollEveryMs = 500
const batchSize = 50

interface WakeJob {
  readonly document: DocumentId
  /** For when it was sent, by the clock of the process that sent it. */
  readonly at: Instant
}

export interface WakeJobsOptions {
  readonly connections: Connections
  readonly now: () => Instant
  readonly share: () => number
  /** The queue's own upkeep failed; it goes on by itself. */
  readonly onTrouble: () => void
}

export function createWakeJobs({ connections, now, share, onTrouble }: WakeJobsOptions): WakeJobs {
  const boss = new PgBoss({
    db: { executeSql: async (text, values) => ({ rows: [...(await connections.run(text, values))] }) },
    schema: 'nuchal_jobs',
    schedule: false,
    maintenanceIntervalSeconds,
    // They hold nothing worth keeping.
    archiveCompletedAfterSeconds: 3600,
    archiveFailedAfterSeconds: 3600,
    deleteAfterHours: 24,
  })
  boss.on('error', onTrouble)
  const halt = new AbortController()
  let loop: Promise<void> = Promise.resolve()

  /** Our own loop around the library's queue: its own one leaves what fails at the end of a job to nobody, which ends the process. */
  async function work(wake: (document: DocumentId) => Promise<void>): Promise<void> {
    while (!halt.signal.aborted) {
      const found = await take(wake).catch(() => onTrouble())
      if (found !== true) await setTimeout(pollEveryMs, undefined, { signal: halt.signal }).catch(() => {})
    }
  }

  /** Whether there was something to do. What fails is given out again after a while. */
  async function take(wake: (document: DocumentId) => Promise<void>): Promise<boolean> {
    const jobs = await boss.fetch<WakeJob>(queue, { batchSize })
    if (jobs.length === 0) return false
    // First of all: a wake-up that has come is on its way no more, or none would be sent in its place.
    await connections.run(
      `UPDATE nuchal.document d SET wake_at = NULL FROM unnest($1::text[], $2::bigint[]) AS job (id, at) WHERE d.id = job.id AND d.wake_at = job.at`,
      [jobs.map(({ data }) => data.document), jobs.map(({ data }) => data.at)],
    )
    // One look serves all hints about a document.
    const documents = [...new Set(jobs.map(({ data }) => data.document))]
    const outcomes = await Promise.allSettled(documents.map((document) => wake(document)))
    const failed = new Set(documents.filter((_, index) => outcomes[index]?.status === 'rejected'))
    const idsOf = (isFailed: boolean): string[] => jobs.filter(({ data }) => failed.has(data.document) === isFailed).map(({ id }) => id)
    if (idsOf(false).length > 0) await boss.complete(queue, idsOf(false))
    if (idsOf(true).length > 0) await boss.fail(queue, idsOf(true))
    return true
  }

  return {
    async open() {
      await boss.start()
      // Making it takes the right to change the schema, which whoever only works here need not have.
      if ((await boss.getQueue(queue)) === null) await boss.createQueue(queue, { name: queue, policy: 'standard', expireInSeconds, retryLimit, retryDelay })
    },
    async enqueue(run, document, at) {
      // From now on, not at an instant: the database's clock need not agree with this machine's.
      const startAfter = Math.max(0, at - now()) / 1000
      await boss.send(queue, { document, at } satisfies WakeJob, { startAfter, db: databaseOf(run) })
    },
    async start(wake) {
      loop = work(wake)
    },
    async stop() {
      halt.abort()
      await loop
    },
    share,
    close: () => boss.stop({ graceful: false, wait: false, close: false }),
  }
}

function databaseOf(run: Run): PgBoss.Db {
  return { executeSql: async (text, values) => ({ rows: [...(await run(text, values))] }) }
}
