// Which stores the environment and the command line name, for what copies a whole clinic.
import { documentMigrations } from '#src/chart/document-migrations.ts'
import type { Config } from '#src/config.ts'
import type { CopyPlace } from '#src/ports/copy-place.ts'
import { cipherFor } from '#src/stores/cipher.ts'
import { createLowdbPlace } from '#src/stores/lowdb/lowdb-place.ts'
import { createPostgresPlace } from '#src/stores/postgres/postgres-place.ts'
import { InputError } from '../input-error.ts'

/** The store that `start` would open. */
export function presentPlace({ databaseUrl, dataDir, dataKey }: Config, spoolFolder?: string): CopyPlace {
  const parts = { steps: documentMigrations, cipher: cipherFor(dataKey) }
  if (databaseUrl !== null) return createPostgresPlace({ url: databaseUrl, ...parts })
  return createLowdbPlace({ folder: dataDir, ...parts, ...(spoolFolder === undefined ? {} : { spoolFolder }) })
}

export interface Target {
  readonly place: CopyPlace
  /** Where the files beside the documents go; null where they stay where they are. */
  readonly folder: string | null
  /** What the environment has to say so that `start` opens it. */
  readonly next: string
}

/**
 * `to` is `lowdb:FOLDER` or `postgres`, whose address is a secret and stands in the environment. It is sealed with the next key where
 * one is named, else with the present one.
 */
export function targetPlace(to: string, { dataKey, nextDataKey, targetDatabaseUrl }: Config): Target {
  const key = nextDataKey ?? dataKey
  const parts = { steps: documentMigrations, cipher: cipherFor(key === 'none' ? null : key) }
  if (to === 'postgres') {
    if (targetDatabaseUrl === null) throw new InputError('TARGET_DATABASE_URL is empty. Set it to the address of an empty database.')
    return { place: createPostgresPlace({ url: targetDatabaseUrl, ...parts }), folder: null, next: 'DATABASE_URL set to what TARGET_DATABASE_URL says' }
  }
  const [, folder] = /^lowdb:(.+)$/s.exec(to) ?? []
  if (folder === undefined) throw new InputError('--to names no store. Write lowdb:FOLDER, or postgres with TARGET_DATABASE_URL set.')
  return { place: createLowdbPlace({ folder, ...parts }), folder, next: `DATA_DIR=${folder}` }
}
