import type { CopyPlace } from '#src/ports/copy-place.ts'
import { StoreError } from '#src/ports/store.ts'
import { plain } from '../cipher.ts'
import { noMigrations } from '../migrations.ts'
import { openConnections, type Connections, type Run } from './connections.ts'
import { copyOut } from './copies.ts'
import { isFilling, markFilling, refuseFilling, unmarkFilling } from './filling.ts'
import { checkKey } from './key-check.ts'
import { createPostgresStore, type PostgresOptions, type PostgresStore } from './postgres-store.ts'
import { createRows } from './rows.ts'
import { isPrepared } from './schema.ts'

/** What a database is for the copying of a whole clinic. */
export function createPostgresPlace(options: PostgresOptions): CopyPlace {
  const { url, steps = noMigrations, cipher = plain } = options

  /** Without becoming one of the processes that share the work, and without making or migrating anything. */
  async function* readFrom(connections: Connections): ReturnType<typeof copyOut> {
    if (!(await isPrepared(connections))) throw describeEmpty()
    await checkKey(connections, cipher)
    await refuseFilling(connections.run)
    if (!(await hasDocuments(connections.run))) throw describeEmpty()
    yield* copyOut(connections, createRows(cipher, steps))
  }

  return {
    async *copyOut() {
      const connections = openConnections({ url, size: 2 })
      try {
        yield* readFrom(connections)
      } finally {
        await connections.close()
      }
    },
    async whileHeld(work) {
      const connections = openConnections({ url, size: 2 })
      try {
        if (!(await isPrepared(connections))) throw describeEmpty()
        await requireAtWork(connections.run, 0)
        const result = await work({ copyOut: () => readFrom(connections) })
        // Who was started meanwhile has changed what was copied, or will have.
        await requireAtWork(connections.run, 0)
        return result
      } finally {
        await connections.close()
      }
    },
    async fill(work) {
      const connections = openConnections({ url, size: 2 })
      const store = createPostgresStore({ ...options, isBeingFilled: true })
      try {
        await store.open()
        return await fillStore(store, connections.run, () => work(store))
      } finally {
        await store.close()
        await connections.close()
      }
    },
  }
}

async function fillStore<T>(store: PostgresStore, run: Run, work: () => Promise<T>): Promise<T> {
  await requireAtWork(run, 1)
  if (await isFilling(run)) await clear(store)
  else if (await hasDocuments(run)) throw describeOccupied()
  await markFilling(run)
  try {
    const result = await work()
    await unmarkFilling(run)
    return result
  } catch (error) {
    // The mark goes last: where clearing fails, what is left is still told for what it is.
    await clear(store).then(() => unmarkFilling(run), () => undefined)
    throw error
  }
}

async function clear(store: PostgresStore): Promise<void> {
  for (const { id } of await store.heads()) await store.erase(id)
}

async function hasDocuments(run: Run): Promise<boolean> {
  return (await run('SELECT FROM nuchal.document LIMIT 1')).length > 0
}

/** `own`: how many of them are this process. */
async function requireAtWork(run: Run, own: number): Promise<void> {
  const alive = await run('SELECT FROM nuchal.process WHERE alive_until > now()')
  if (alive.length <= own) return
  throw new StoreError('locked', 'Another process is at work on the database. Stop it first; one that was killed counts as stopped 15 seconds later.')
}

function describeEmpty(): StoreError {
  return new StoreError('unavailable', 'Nothing is stored in the database. Set DATABASE_URL to the database of the clinic.')
}

function describeOccupied(): StoreError {
  return new StoreError('unavailable', 'The database holds documents already, and nothing is put in their place. Name an empty one.')
}
