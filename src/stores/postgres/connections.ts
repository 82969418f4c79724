// The pool, and transactions on it. Errors leave here as the port's; none holds the address or what was written.
import { createHash } from 'node:crypto'
import pg from 'pg'
import { isRepeatable, toDatabaseError } from './database-error.ts'

/** One statement; `$1`, `$2` … stand for the values. With values it is prepared, so that its text has to be one of few. */
export type Run = <Row extends object = Record<string, unknown>>(text: string, values?: readonly unknown[]) => Promise<readonly Row[]>

/** A statement that is sent at once and not waited for; the commit waits for it, and fails where it failed. */
export type Queue = (text: string, values: readonly unknown[]) => void

export interface Connections {
  readonly run: Run
  /** All or nothing. Work that met another transaction in an unlucky way is done again from the start. */
  transaction<T>(work: (run: Run, queue: Queue) => Promise<T>, mode?: 'read-write' | 'snapshot'): Promise<T>
  close(): Promise<void>
}

export interface ConnectionOptions {
  readonly url: string
  /** How many at most. */
  readonly size: number
}

const connectLimitMs = 5_000
/**
 * Our choice: a machine that vanished in the middle of a transaction holds a client's row no longer than this. Well over
 * what a commit takes, and within the minute in which another process has to take over.
 */
const settings = `SET idle_in_transaction_session_timeout = '15s'; SET lock_timeout = '30s'; SET statement_timeout = '60s'; SET TimeZone = 'UTC'`
const mostTries = 5

const bigint = 20

export function openConnections({ url, size }: ConnectionOptions): Connections {
  const pool = new pg.Pool({
    connectionString: url,
    max: size,
    connectionTimeoutMillis: connectLimitMs,
    keepAlive: true,
    // The first statement travels with BEGIN, the last with COMMIT: two round trips an answer, not four.
    pipeline: true,
    application_name: 'nuchal',
    // Instants and counts stay far below 2^53.
    types: { getTypeParser: ((oid: number, format?: 'text') => (oid === bigint ? Number : pg.types.getTypeParser(oid, format))) as typeof pg.types.getTypeParser },
  })
  // A connection that breaks while nobody uses it: the next one that is asked for tells.
  pool.on('error', () => {})
  pool.on('connect', (client) => {
    // For good: a connection may break when it is in nobody's hands, and what nobody listens to would end the process.
    client.on('error', () => {})
    // Sent ahead of whatever the connection is wanted for.
    client.query(settings).catch(() => {})
  })

  const run: Run = async (text, values = []) => {
    try {
      return rowsOf(await pool.query(prepared(text, values)))
    } catch (error) {
      throw toDatabaseError(error)
    }
  }

  async function attempt<T>(work: (run: Run, queue: Queue) => Promise<T>, begin: string): Promise<T> {
    const client = await pool.connect().catch((error: unknown) => Promise.reject(toDatabaseError(error)))
    let broken: Error | undefined
    // A connection may break between two statements; the next statement then tells.
    const onError = (error: Error): void => void (broken = error)
    client.on('error', onError)
    const queued: Promise<unknown>[] = []
    const send = (text: string, values: readonly unknown[] = []): Promise<unknown> => {
      const sent = client.query(prepared(text, values))
      queued.push(sent)
      // Looked at before the commit counts.
      sent.catch(() => {})
      return sent
    }
    try {
      void send(begin)
      const result = await work(async (text, values = []) => rowsOf(await client.query(prepared(text, values))), (text, values) => void send(text, values))
      void send('COMMIT')
      await Promise.all(queued)
      return result
    } catch (error) {
      await client.query('ROLLBACK').catch((failed: Error) => void (broken = failed))
      throw error
    } finally {
      client.off('error', onError)
      client.release(broken)
    }
  }

  return {
    run,
    async transaction(work, mode = 'read-write') {
      const begin = mode === 'snapshot' ? 'BEGIN ISOLATION LEVEL REPEATABLE READ READ ONLY' : 'BEGIN'
      for (let tries = 1; ; tries += 1) {
        try {
          return await attempt(work, begin)
        } catch (error) {
          if (tries < mostTries && isRepeatable(error)) continue
          throw toDatabaseError(error)
        }
      }
    },
    close: () => pool.end(),
  }
}

const names = new Map<string, string>()

/** Parsed and planned once a connection, which takes the database longer than carrying it out. */
function prepared(text: string, values: readonly unknown[]): pg.QueryConfig {
  if (values.length === 0) return { text }
  const name = names.get(text) ?? `nuchal-${createHash('sha256').update(text).digest('hex').slice(0, 16)}`
  names.set(text, name)
  return { name, text, values: [...values] }
}

/** Of several statements in one text the driver gives a list; the last one's rows count. */
function rowsOf<Row>(result: pg.QueryResult | readonly pg.QueryResult[]): readonly Row[] {
  const last = Array.isArray(result) ? (result as readonly pg.QueryResult[]).at(-1) : (result as pg.QueryResult)
  return (last?.rows ?? []) as readonly Row[]
}
