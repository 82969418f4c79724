// Answers a second on PostgreSQL with concurrent clients, against a bare transaction with the same row lock, update and inserts
// through the same driver. On a real server with its disk, started here.
import pg from 'pg'
import { flows } from '#flows/registry.ts'
import type { Chart } from '#src/chart/chart.ts'
import { createStep } from '#src/chart/step.ts'
import type { Content } from '#src/content/content.ts'
import type { DocumentId } from '#src/domain/identifier.ts'
import type { Plan } from '#src/domain/plan.ts'
import type { Commit } from '#src/ports/store.ts'
import { startPostgres } from '#tests/support/postgres-server.ts'
import { playSession, type Press } from '../answer-cost.ts'
import { atLeast, atMost, medianOf, type Figure } from '../figure.ts'
import { answerAll, commitOf, connections, enrol, idOf, openSessionStore } from './client-sessions.ts'

/** Issue 5, "Speed and memory". */
const leastShare = 0.6
const clients = 32
const rounds = 5

export async function measureAnswerRate(plan: Plan, content: Content): Promise<readonly Figure[]> {
  const step = createStep(content, flows)
  const presses = playSession(plan, content, step)
  const server = await startPostgres({ isDurable: true })
  const url = await server.makeDatabase()
  const store = openSessionStore(url, presses)
  const pool = new pg.Pool({ connectionString: url, max: connections })
  try {
    await store.open()
    await pool.query('CREATE TABLE bare (id text PRIMARY KEY, body text NOT NULL, head text NOT NULL); CREATE TABLE bare_line (owner text, seq bigserial, body text NOT NULL, PRIMARY KEY (owner, seq))')
    // What the answers come to, known beforehand: the bare transactions only write it.
    const commits = presses.map(({ chart, event, at }) => commitOf(step, chart, event, at))
    const ratios: number[] = []
    const rates: number[] = []
    // The first round warms up; both by turns, so that whatever else the machine does meets them alike.
    for (let round = 0; round <= rounds; round += 1) {
      const answers = await rateOf(presses, (client) => answerAll(store, step, presses, idOf(round, client)), (client) => enrol(store, presses, idOf(round, client)))
      const bare = await rateOf(presses, (client) => writeAll(pool, commits, idOf(round, client)), async () => {})
      if (round === 0) continue
      ratios.push(answers / bare)
      rates.push(answers)
    }
    return [
      atLeast('answers a second on PostgreSQL, 32 clients at once, over bare transactions with the same lock, update and inserts', medianOf(ratios), leastShare),
      atMost('answers a second on PostgreSQL, one process, for information', medianOf(rates), null),
    ]
  } finally {
    await store.close().catch(() => undefined)
    await pool.end()
    await server.stop()
  }
}

async function rateOf(presses: readonly Press[], run: (client: number) => Promise<void>, prepare: (client: number) => Promise<void>): Promise<number> {
  const all = Array.from({ length: clients }, (_, client) => client)
  for (const client of all) await prepare(client)
  const began = performance.now()
  await Promise.all(all.map(run))
  return (presses.length * clients * 1000) / (performance.now() - began)
}

/** Nothing but what the same answers have to write. */
async function writeAll(pool: pg.Pool, commits: readonly Commit<Chart>[], id: DocumentId): Promise<void> {
  await pool.query('INSERT INTO bare (id, body, head) VALUES ($1, $2, $3)', [id, JSON.stringify(commits[0]?.document), '{}'])
  for (const { document, head, entries, effects } of commits) {
    const client = await pool.connect()
    try {
      await client.query('BEGIN')
      await client.query('SELECT body FROM bare WHERE id = $1 FOR UPDATE', [id])
      await client.query('UPDATE bare SET body = $2, head = $3 WHERE id = $1', [id, JSON.stringify(document), JSON.stringify(head)])
      const lines = [...entries, ...effects].map((line) => JSON.stringify(line))
      if (lines.length > 0) await client.query('INSERT INTO bare_line (owner, body) SELECT $1, unnest($2::text[])', [id, lines])
      await client.query('COMMIT')
    } finally {
      client.release()
    }
  }
}
