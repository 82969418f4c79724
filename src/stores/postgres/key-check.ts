import { keyedError, keyIdOf, type Cipher } from '../cipher.ts'
import type { Connections } from './connections.ts'

const place = 'The database'
const known = 'nuchal'

/** A new database takes the clinic's key, or none; later another is refused before anything is read or written. */
export async function checkKey({ transaction }: Connections, cipher: Cipher): Promise<void> {
  await transaction(async (run) => {
    await run(`INSERT INTO nuchal.setting (name, value) VALUES ('key', $1) ON CONFLICT DO NOTHING`, [cipher.seal(known, 'key')])
    const [row] = await run<{ value: string }>(`SELECT value FROM nuchal.setting WHERE name = 'key'`)
    const sealed = row?.value ?? ''
    if (keyIdOf(sealed) !== cipher.keyId) throw keyedError(place, keyIdOf(sealed), cipher.keyId)
    cipher.unseal(sealed, 'key')
  })
}
