import { createHash } from 'node:crypto'
import { StoreError } from '#src/ports/store.ts'
import { keyIdOf, type Cipher } from '../cipher.ts'
import { writeJson } from '../keep-json.ts'
import type { Decoded } from '../stored-envelope.ts'
import { readFormat } from '../stored-envelope.ts'

/**
 * The last field of every file is the SHA-256 (FIPS 180-4) of the JSON text before it; damage is told at once. It stands
 * outside whatever is encrypted, so that damage is told from a wrong key, and by whoever has no key.
 */
const sealPattern = /,"fingerprint":"([0-9a-f]{64})"\}\n$/
const sealLength = ',"fingerprint":""}\n'.length + 64

/** An encrypted file is `{"format":2,"sealed":"…"}`: a version that knows no keys takes it for a newer one, not for damage. */
const encryptedFormat = 2

/** `sealedWith` is the key's id; null for what is not encrypted though a key is given. */
export type Unsealed = Decoded<unknown> | { readonly kind: 'keyed'; readonly sealedWith: string | null }

export function sealText(value: object, cipher: Cipher, place: string): string {
  const text = writeJson(value)
  const body = cipher.keyId === null ? text : JSON.stringify({ format: encryptedFormat, sealed: cipher.seal(text, place) })
  return `${body.slice(0, -1)},"fingerprint":"${fingerprintOf(body)}"}\n`
}

/** The value of a sealed text, checked byte by byte; `newestFormat` is the newest that this program can read. */
export function unsealText(text: string, newestFormat: number, cipher: Cipher, place: string): Unsealed {
  const seal = sealPattern.exec(text.slice(-sealLength))
  const body = `${text.slice(0, -sealLength)}}`
  if (seal !== null && seal[1] === fingerprintOf(body)) return openBody(JSON.parse(body), cipher, place)
  // A later program may seal in another way; its number tells it from damage.
  const value = parseOrNull(text)
  const format = readFormat(value)
  if (format !== null && format > (isEncrypted(value) ? encryptedFormat : newestFormat)) return { kind: 'newer', format }
  return { kind: 'damaged', what: describeDamage(text, seal !== null) }
}

function openBody(value: unknown, cipher: Cipher, place: string): Unsealed {
  if (!isEncrypted(value)) return cipher.keyId === null ? { kind: 'good', value } : { kind: 'keyed', sealedWith: null }
  if (value.format > encryptedFormat) return { kind: 'newer', format: value.format }
  const sealedWith = keyIdOf(value.sealed)
  if (sealedWith === null) return { kind: 'damaged', what: 'what it holds is not sealed' }
  if (sealedWith !== cipher.keyId) return { kind: 'keyed', sealedWith }
  try {
    return { kind: 'good', value: JSON.parse(cipher.unseal(value.sealed, place)) }
  } catch (error) {
    if (!(error instanceof StoreError)) throw error
    if (error.code === 'newer') return { kind: 'newer', format: value.format }
    return { kind: 'damaged', what: 'it was changed, or sealed for another place' }
  }
}

function isEncrypted(value: unknown): value is { readonly format: number; readonly sealed: string } {
  return readFormat(value) !== null && typeof (value as { sealed?: unknown }).sealed === 'string'
}

function describeDamage(text: string, hasSeal: boolean): string {
  if (text === '') return 'it is empty'
  if (/^\0+$/.test(text)) return 'it is filled with zeros'
  if (hasSeal) return 'its fingerprint does not match'
  return parseOrNull(text) === null ? 'it is cut or no record' : 'it has no fingerprint'
}

function parseOrNull(text: string): unknown {
  try {
    return JSON.parse(text)
  } catch {
    return null
  }
}

function fingerprintOf(body: string): string {
  return createHash('sha256').update(body, 'utf8').digest('hex')
}
