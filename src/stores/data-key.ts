import { createSecretKey, hkdfSync, type KeyObject } from 'node:crypto'

/** The clinic's one secret, 32 bytes. A key object shows its bytes neither when it is printed nor as JSON. */
export type DataKey = KeyObject & { readonly isDataKey: true }

const keyBytes = 32

/** 64 hex digits or the 44 characters of base64 (RFC 4648); null for anything else. */
export function parseDataKey(text: string): DataKey | null {
  const encoding = /^[0-9a-f]{64}$/i.test(text) ? 'hex' : 'base64'
  const bytes = Buffer.from(text, encoding)
  // Decoding passes over what is no base64, and would shorten a key that was copied badly.
  const isWhole = encoding === 'hex' || bytes.toString('base64') === text
  return bytes.length === keyBytes && isWhole ? dataKeyOf(bytes) : null
}

export function dataKeyOf(bytes: Uint8Array): DataKey {
  if (bytes.length !== keyBytes) throw new RangeError(`a data key has ${keyBytes} bytes`)
  return createSecretKey(bytes) as DataKey
}

/**
 * A key for one purpose, of which nothing can be learnt about those for others: HKDF with SHA-256 and no salt (RFC 5869; its
 * section 3.1 allows that, since the clinic's key is random throughout).
 */
export function deriveBytes(key: KeyObject, purpose: string, length: number): Buffer {
  return Buffer.from(hkdfSync('sha256', key, '', purpose, length))
}
