import { keyedError, keyIdOf, type Cipher } from '../cipher.ts'
import type { Connections } from './connections.ts'

const place = 'The database'
const known = 'nuchal'

/** A new database takes the clinic's key, or none. */
export async function takeKey({ run }: Connections, cipher: Cipher): Promise<void> {
  await run(`INSERT INTO nuchal.setting (name, value) VALUES ('key', $1) ON CONFLICT DO NOTHING`, [cipher.seal(known, 'key')])
}

/** Refuses another key than the database's, before anything is read or written. */
export async function checkKey({ run }: Connections, cipher: Cipher): Promise<void> {
  const [row] = await run<{ value: string }>(`SELECT value FROM nuchal.setting WHERE name = 'key'`)
  // Nothing was ever stored.
  if (row === undefined) return
  if (keyIdOf(row.value) !== cipher.keyId) throw keyedError(place, keyIdOf(row.value), cipher.keyId)
  cipher.unseal(row.value, 'key')
}
