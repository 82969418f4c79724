import { createCipher, type Cipher } from '#src/stores/cipher.ts'
import { dataKeyOf, type DataKey } from '#src/stores/data-key.ts'

/** The same key in every run; `number` tells one from another. */
export function makeKey(number: number): DataKey {
  return dataKeyOf(Buffer.alloc(32, number))
}

/** As it stands in the environment. */
export function writeKey(number: number): string {
  return Buffer.alloc(32, number).toString('base64')
}

export function makeCipher(number: number): Cipher {
  return createCipher(makeKey(number))
}
