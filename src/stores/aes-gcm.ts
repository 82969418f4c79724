import { createCipheriv, createDecipheriv } from 'node:crypto'

/** AES-256 in Galois/Counter Mode with nonces of 96 and tags of 128 bits (NIST SP 800-38D, 5.2.1). */
const algorithm = 'aes-256-gcm'
export const nonceBytes = 12
export const tagBytes = 16

/** The encrypted bytes and, behind them, the tag. A nonce must never be used twice with one key. */
export function encryptBytes(key: Uint8Array, nonce: Uint8Array, bytes: Uint8Array, additional: Uint8Array): Buffer {
  const cipher = createCipheriv(algorithm, key, nonce, { authTagLength: tagBytes })
  cipher.setAAD(additional)
  return Buffer.concat([cipher.update(bytes), cipher.final(), cipher.getAuthTag()])
}

/** What was encrypted, or null where a bit of it, of the tag, the nonce, the key or the additional data is another. */
export function decryptBytes(key: Uint8Array, nonce: Uint8Array, encrypted: Uint8Array, additional: Uint8Array): Buffer | null {
  const end = encrypted.length - tagBytes
  if (end < 0) return null
  const decipher = createDecipheriv(algorithm, key, nonce, { authTagLength: tagBytes })
  decipher.setAAD(additional)
  decipher.setAuthTag(encrypted.subarray(end))
  try {
    return Buffer.concat([decipher.update(encrypted.subarray(0, end)), decipher.final()])
  } catch {
    return null
  }
}
