import pg from 'pg'
import { StoreError } from '#src/ports/store.ts'
import { readErrorCode } from '../store-failure.ts'

/** SQLSTATE codes, PostgreSQL manual, appendix A. */
const full: ReadonlySet<string> = new Set(['53100'])
/** Two met in an unlucky way: serialization, deadlock, and a row that two made at once. */
const repeatable: ReadonlySet<string> = new Set(['40001', '40P01', '23505'])

const mendByCode: Readonly<Record<string, string>> = {
  ECONNREFUSED: 'Start the database, or mend DATABASE_URL.',
  ENOTFOUND: 'Mend the host in DATABASE_URL.',
  '28P01': 'Mend the user or the password in DATABASE_URL.',
  '28000': 'Mend the user or the password in DATABASE_URL.',
  '3D000': 'Make the database that DATABASE_URL names.',
  '42501': 'Give the user in DATABASE_URL the rights that docs/running names.',
  '53300': 'Raise max_connections, or let fewer processes run.',
}

/** The port's error, with the database's own code for whoever decides by it. */
export class DatabaseFailure extends StoreError {
  readonly databaseCode: string
  constructor(databaseCode: string, mend: string) {
    super('unavailable', `The database cannot be used (${databaseCode}). ${mend}`)
    this.databaseCode = databaseCode
  }
}

export function isRepeatable(error: unknown): boolean {
  return error instanceof pg.DatabaseError && repeatable.has(error.code ?? '')
}

/**
 * A failure of the database as the port's error; an error of anybody else's passes as it is. The cause is not kept: its
 * detail may show a row.
 */
export function toDatabaseError(error: unknown): unknown {
  if (error instanceof StoreError) return error
  const code = error instanceof pg.DatabaseError ? (error.code ?? 'unknown') : readConnectionCode(error)
  if (code === null) return error
  if (full.has(code)) return new StoreError('full', 'No space is left for the database. Nothing was changed; make room.')
  const mend = mendByCode[code] ?? 'Check that the database runs and can be reached.'
  return new DatabaseFailure(code, mend)
}

/** Node's own codes, those of several addresses tried in vain, and what the driver says without a code. */
function readConnectionCode(error: unknown): string | null {
  const code = readErrorCode(error)
  if (code !== null) return /^[A-Z][A-Z0-9_]+$/.test(code) ? code : null
  if (error instanceof AggregateError) return readConnectionCode(error.errors[0])
  // https://github.com/brianc/node-postgres: lib/client.js and pg-pool give these no code.
  const isDriver = error instanceof Error && /connection terminated|timeout exceeded|client was closed|not queryable|connect timeout/i.test(error.message)
  return isDriver ? 'connection lost' : null
}
