// Makes what is kept unreadable without the clinic's key, and notices what was changed or moved.
import { createHmac, randomFillSync } from 'node:crypto'
import { StoreError } from '#src/ports/store.ts'
import { decryptBytes, encryptBytes, nonceBytes } from './aes-gcm.ts'
import { deriveBytes, type DataKey } from './data-key.ts'

export interface Cipher {
  /** Short and public: tells which key sealed something; null where nothing is encrypted. */
  readonly keyId: string | null
  /** `place` (e.g. `document:chart-12`) is bound in as additional data, so that what was kept in one place is never taken for another's. */
  seal(text: string, place: string): string
  /** Throws a StoreError `keyed` (wrong key, or none, or a key where nothing is encrypted), `damaged` or `newer`. */
  unseal(sealed: string, place: string): string
  /** A keyed digest (HMAC-SHA-256) for look-ups of what must not stand there in clear; the text itself where there is no key. */
  digest(text: string): string
}

/** Sealed text is `sealed:1:KEY-ID:BASE64`: a version, the key's id, and in base64 the nonce, the encrypted text and the tag. */
const newestVersion = 1
const sealedPattern = /^sealed:(\d{1,6}):([0-9a-f]{16}):/
const keyIdBytes = 8

/** Nothing is encrypted. */
export const plain: Cipher = {
  keyId: null,
  seal: (text) => text,
  unseal(text, place) {
    const sealed = readSeal(text)
    if (sealed !== null) throw keyedError(place, sealed.keyId, null)
    return text
  },
  digest: (text) => text,
}

/**
 * A fresh random nonce a seal: NIST SP 800-38D (8.3) allows 2^32 of them a key. An answer costs one seal, or two where it
 * closes a session. 1,000 clients with a hundred answers a day each use one key for more than a century, 100,000 such
 * clients for 14 months: a clinic of that size changes its key once a year, for others it is good practice only.
 */
export function createCipher(key: DataKey): Cipher {
  // Three purposes, three keys: no look-up digest and no id says anything about the key that seals.
  const sealingKey = deriveBytes(key, 'nuchal 1 sealing', 32)
  const digestKey = deriveBytes(key, 'nuchal 1 digests', 32)
  const keyId = deriveBytes(key, 'nuchal 1 key id', keyIdBytes).toString('hex')
  const head = `sealed:${newestVersion}:${keyId}:`
  const additional = (place: string): Buffer => Buffer.from(`${head}${place}`, 'utf8')
  return {
    keyId,
    seal(text, place) {
      // Half a character would come back as another one.
      if (!isWellFormed(text)) throw new TypeError('text with half a character cannot be sealed')
      const nonce = randomFillSync(Buffer.alloc(nonceBytes))
      const encrypted = encryptBytes(sealingKey, nonce, Buffer.from(text, 'utf8'), additional(place))
      return `${head}${Buffer.concat([nonce, encrypted]).toString('base64')}`
    },
    unseal(text, place) {
      const sealed = readSeal(text)
      if (sealed === null) throw text.length === 0 ? damagedError(place) : keyedError(place, null, keyId)
      if (sealed.version > newestVersion) throw newerError(place)
      if (sealed.keyId !== keyId) throw keyedError(place, sealed.keyId, keyId)
      const base64 = text.slice(head.length)
      const bytes = Buffer.from(base64, 'base64')
      // Base64 passes over foreign characters: each sealed text has one spelling only.
      const isWhole = text.startsWith(head) && bytes.length > nonceBytes && bytes.toString('base64') === base64
      const opened = isWhole ? decryptBytes(sealingKey, bytes.subarray(0, nonceBytes), bytes.subarray(nonceBytes), additional(place)) : null
      if (opened === null) throw damagedError(place)
      return opened.toString('utf8')
    },
    digest: (text) => createHmac('sha256', digestKey).update(text, 'utf8').digest('hex'),
  }
}

/** For whoever has a key or none. */
export function cipherFor(key: DataKey | null): Cipher {
  return key === null ? plain : createCipher(key)
}

/** The id of the key that a text was sealed with, or null if it is no sealed text. */
export function keyIdOf(text: string): string | null {
  return readSeal(text)?.keyId ?? null
}

/** `sealedWith` is null for what is not encrypted, `given` is null for no key. */
export function keyedError(place: string, sealedWith: string | null, given: string | null): StoreError {
  return new StoreError('keyed', `${place} ${describeMismatch(sealedWith, given)} Nothing was changed.`)
}

function describeMismatch(sealedWith: string | null, given: string | null): string {
  if (sealedWith === null) {
    return 'is not encrypted, but DATA_KEY is set. Leave DATA_KEY empty, or have everything encrypted with "migrate --rekey".'
  }
  if (given === null) return `is encrypted (key ${sealedWith}), and DATA_KEY is empty. Set DATA_KEY to that key.`
  return `is encrypted with another key (${sealedWith}) than the one in DATA_KEY (${given}). Set DATA_KEY to that key.`
}

function damagedError(place: string): StoreError {
  return new StoreError('damaged', `${place} is damaged, or was moved there from another place. Nothing was changed. Restore it from a backup.`)
}

function newerError(place: string): StoreError {
  return new StoreError('newer', `${place} was encrypted by a newer version of this program. Install that version or a later one; nothing was changed.`)
}

function readSeal(text: string): { readonly version: number; readonly keyId: string } | null {
  const [, version, keyId] = sealedPattern.exec(text) ?? []
  return version === undefined || keyId === undefined ? null : { version: Number(version), keyId }
}

function isWellFormed(text: string): boolean {
  return !/\p{Surrogate}/u.test(text)
}
