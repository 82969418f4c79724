import fc from 'fast-check'
import { inspect } from 'node:util'
import { describe, expect, it } from 'vitest'
import { StoreError } from '#src/ports/store.ts'
import { cipherFor, keyIdOf, plain, type Cipher } from '#src/stores/cipher.ts'
import { dataKeyOf, parseDataKey } from '#src/stores/data-key.ts'
import { makeCipher, makeKey } from '#tests/support/data-keys.ts'

const cipher = makeCipher(1)
const other = makeCipher(2)
const place = 'document:chart-1'
const text = '{"says":"my left hand has gone numb"}'
const keyId = /^[0-9a-f]{16}$/

function failToUnseal(by: Cipher, sealed: string, where = place): StoreError {
  try {
    by.unseal(sealed, where)
  } catch (error) {
    if (error instanceof StoreError) return error
    throw error
  }
  throw new Error('it was unsealed')
}

/** Every text that differs in one character of `sealed`, by turns in letters that base64 and hex know and one they do not. */
function changeEach(sealed: string): readonly string[] {
  return [...sealed].map((character, at) => sealed.slice(0, at) + (['0', '1', '*'].find((one) => one !== character) ?? '') + sealed.slice(at + 1))
}

describe('a sealed text', () => {
  it('comes back as it was, whatever it holds', () => {
    fc.assert(fc.property(fc.string({ unit: 'binary' }), fc.string({ unit: 'binary' }), (any, where) => cipher.unseal(cipher.seal(any, where), where) === any))
    fc.assert(fc.property(fc.jsonValue(), (value) => cipher.unseal(cipher.seal(JSON.stringify(value), place), place) === JSON.stringify(value)))
    expect(cipher.unseal(cipher.seal('', place), place)).toBe('')
  })

  it('shows version and key, and nothing of what it holds, in characters that any file, line or column takes', () => {
    const sealed = cipher.seal(text, place)
    const [, body] = /^sealed:1:[0-9a-f]{16}:([A-Za-z0-9+/]+=*)$/.exec(sealed) ?? []
    expect(keyIdOf(sealed)).toBe(cipher.keyId)
    // Nonce, text and tag, as many bytes as they have.
    const bytes = Buffer.from(body ?? '', 'base64')
    expect(bytes.length).toBe(12 + text.length + 16)
    expect(bytes.includes('numb')).toBe(false)
  })

  it('is another one each time, with a nonce of its own', () => {
    const nonces = Array.from({ length: 2_000 }, () => Buffer.from(cipher.seal(text, place).split(':')[3] ?? '', 'base64').subarray(0, 12).toString('hex'))
    expect(new Set(nonces).size).toBe(2_000)
  })

  it('is refused in another place than it was sealed for', () => {
    const error = failToUnseal(cipher, cipher.seal(text, 'document:chart-2'))
    expect([error.code, error.message]).toEqual(['damaged', expect.stringMatching(/^document:chart-1 is damaged, or was moved there from another place\./)])
  })

  it('is refused once any single character of it is another one', () => {
    const sealed = cipher.seal(text, place)
    const codes = changeEach(sealed).map((changed) => failToUnseal(cipher, changed).code)
    expect(codes.length).toBe(sealed.length)
    expect(codes.slice(sealed.lastIndexOf(':') + 1)).toEqual(Array.from({ length: sealed.length - sealed.lastIndexOf(':') - 1 }, () => 'damaged'))
  })

  it('is refused at every length but its own', () => {
    const sealed = cipher.seal(text, place)
    const cuts = Array.from({ length: sealed.length }, (_, length) => sealed.slice(0, length))
    const wrong = [...cuts, `${sealed}A`, `${sealed}\n`, ` ${sealed}`, sealed + sealed].filter((one) => failToUnseal(cipher, one) === null)
    expect(wrong).toEqual([])
  })

  it('has one spelling only', () => {
    const sealed = cipher.seal('12', place)
    // 30 bytes are 40 characters without padding; one more byte leaves bits that base64 passes over.
    const padded = cipher.seal('123', place)
    const loose = padded.replace(/.(?==+$)/, (last) => String.fromCharCode(last.charCodeAt(0) + 1))
    expect([failToUnseal(cipher, `${sealed}=`).code, failToUnseal(cipher, loose).code, failToUnseal(cipher, padded.replace(/=+$/, '')).code]).toEqual(['damaged', 'damaged', 'damaged'])
  })

  it('of a version to come is refused as such', () => {
    expect(failToUnseal(cipher, cipher.seal(text, place).replace('sealed:1:', 'sealed:2:')).code).toBe('newer')
  })

  it('is not made of half a character, which would come back as another', () => {
    expect(() => cipher.seal('\ud83d', place)).toThrow(TypeError)
    expect(cipher.unseal(cipher.seal('\u{1f600}', place), place)).toBe('\u{1f600}')
  })
})

describe('the wrong key', () => {
  it.each<readonly [string, Cipher, string, string]>([
    ['another key', other, cipher.seal(text, place), `is encrypted with another key (${cipher.keyId}) than the one in DATA_KEY (${other.keyId}).`],
    ['no key', plain, cipher.seal(text, place), `is encrypted (key ${cipher.keyId}), and DATA_KEY is empty.`],
    ['a key where nothing is encrypted', cipher, text, 'is not encrypted, but DATA_KEY is set.'],
  ])('%s is told from damage, with the place and the mend, and shows no text', (_, by, sealed, sentence) => {
    const error = failToUnseal(by, sealed)
    expect([error.code, error.message]).toEqual(['keyed', expect.stringContaining(`${place} ${sentence}`)])
    expect(error.message).not.toContain('numb')
    expect(error.cause).toBeUndefined()
  })

  it('with the right key’s id opens nothing', () => {
    const sealed = cipher.seal(text, place).replace(cipher.keyId ?? '', other.keyId ?? '')
    expect(failToUnseal(other, sealed).code).toBe('damaged')
  })
})

describe('a key', () => {
  it('is known by an id of sixteen hex digits, the same in every process and another for each key', () => {
    expect(cipher.keyId).toMatch(keyId)
    expect(makeCipher(1).keyId).toBe(cipher.keyId)
    expect(other.keyId).not.toBe(cipher.keyId)
  })

  it('makes digests that only its holder can make, the same each time', () => {
    expect(cipher.digest('telegram 4711')).toMatch(/^[0-9a-f]{64}$/)
    expect(cipher.digest('telegram 4711')).toBe(makeCipher(1).digest('telegram 4711'))
    expect(new Set([cipher.digest('telegram 4711'), cipher.digest('telegram 4712'), other.digest('telegram 4711')]).size).toBe(3)
  })

  it('is read from 64 hex digits or 44 characters of base64', () => {
    const bytes = Buffer.from(Array.from({ length: 32 }, (_, at) => 7 * at + 3))
    const [hex, base64] = [parseDataKey(bytes.toString('hex')), parseDataKey(bytes.toString('base64'))]
    expect([hex?.export(), base64?.export(), parseDataKey(bytes.toString('hex').toUpperCase())?.export()]).toEqual([bytes, bytes, bytes])
  })

  const base64 = Buffer.alloc(32, 200).toString('base64')
  it.each([
    ['nothing', ''],
    ['63 hex digits', 'a'.repeat(63)],
    ['65 hex digits', 'a'.repeat(65)],
    ['base64 of 31 bytes', Buffer.alloc(31, 1).toString('base64')],
    ['base64 of 33 bytes', Buffer.alloc(33, 1).toString('base64')],
    ['base64 without its padding', base64.slice(0, -1)],
    ['base64 with a foreign character', `*${base64.slice(1)}`],
    ['base64 with a character too many in it', `*${base64}`],
    ['base64 whose last bits are not zero', base64.replace(/.=$/, 'h=')],
    ['the alphabet of web addresses', Buffer.alloc(32, 255).toString('base64url')],
    ['32 characters', 'correct horse battery staple 123'],
    ['a blank behind it', `${base64} `],
  ])('is not read from %s', (_, written) => {
    expect(parseDataKey(written)).toBeNull()
  })

  it('shows its bytes to nobody who prints it', () => {
    const key = makeKey(65)
    const shown = [String(key), inspect(key, { showHidden: true, depth: 9 }), JSON.stringify({ key }), JSON.stringify(makeCipher(65)), inspect(makeCipher(65), { showHidden: true, depth: 9 })].join()
    expect(shown).not.toMatch(/AAAA|4141|65, 65/)
  })

  it('of another length is none', () => {
    expect(() => dataKeyOf(Buffer.alloc(31))).toThrow(RangeError)
  })
})

describe('without a key', () => {
  it('texts and digests stay what they are', () => {
    expect([plain.keyId, plain.seal(text, place), plain.unseal(text, place), plain.digest(text)]).toEqual([null, text, text, text])
    expect([cipherFor(null), cipherFor(makeKey(1)).keyId]).toEqual([plain, cipher.keyId])
  })
})
