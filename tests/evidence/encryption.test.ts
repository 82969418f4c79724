// What is kept is encrypted as the published standards say, byte for byte.
import { createHmac, createSecretKey } from 'node:crypto'
import { describe, expect, it } from 'vitest'
import { decryptBytes, encryptBytes } from '#src/stores/aes-gcm.ts'
import { createCipher } from '#src/stores/cipher.ts'
import { dataKeyOf, deriveBytes } from '#src/stores/data-key.ts'
import { deriveByStandard } from './published/hkdf.ts'

const hex = (text: string): Buffer => Buffer.from(text, 'hex')

/** NIST 2007 (SP 800-38D), by the test vectors of its validation programme (CAVP, gcmEncryptExtIV256.rsp; IVlen 96, Taglen 128) [found-2nd]. */
const vectors = [
  {
    name: 'PTlen 128, AADlen 0, count 0',
    key: '31bdadd96698c204aa9ce1448ea94ae1fb4a9a0b3c9d773b51bb1822666b8f22',
    iv: '0d18e06c7c725ac9e362e1ce',
    text: '2db5168e932556f8089a0622981d017d',
    additional: '',
    encrypted: 'fa4362189661d163fcd6a56d8bf0405a',
    tag: 'd636ac1bbedd5cc3ee727dc2ab4a9489',
  },
  {
    name: 'PTlen 128, AADlen 0, count 1',
    key: '460fc864972261c2560e1eb88761ff1c992b982497bd2ac36c04071cbb8e5d99',
    iv: '8a4a16b9e210eb68bcb6f58d',
    text: '99e4e926ffe927f691893fb79a96b067',
    additional: '',
    encrypted: '133fc15751621b5f325c7ff71ce08324',
    tag: 'ec4e87e0cf74a13618d0b68636ba9fa7',
  },
  {
    name: 'PTlen 128, AADlen 128, count 0',
    key: '92e11dcdaa866f5ce790fd24501f92509aacf4cb8b1339d50c9c1240935dd08b',
    iv: 'ac93a1a6145299bde902f21a',
    text: '2d71bcfa914e4ac045b2aa60955fad24',
    additional: '1e0889016f67601c8ebea4943bc23ad6',
    encrypted: '8995ae2e6df3dbf96fac7b7137bae67f',
    tag: 'eca5aa77d51d4a0a14d9c51e1da474ab',
  },
  {
    name: 'PTlen 128, AADlen 160, count 0',
    key: '83688deb4af8007f9b713b47cfa6c73e35ea7a3aa4ecdb414dded03bf7a0fd3a',
    iv: '0b459724904e010a46901cf3',
    text: '33d893a2114ce06fc15d55e454cf90c3',
    additional: '794a14ccd178c8ebfd1379dc704c5e208f9d8424',
    encrypted: 'cc66bee423e3fcd4c0865715e9586696',
    tag: '0fb291bd3dba94a1dfd8b286cfb97ac5',
  },
  {
    name: 'PTlen 408, AADlen 128, count 0',
    key: '5fe01c4baf01cbe07796d5aaef6ec1f45193a98a223594ae4f0ef4952e82e330',
    iv: 'bd587321566c7f1a5dd8652d',
    text: '881dc6c7a5d4509f3c4bd2daab08f165ddc204489aa8134562a4eac3d0bcad7965847b102733bb63d1e5c598ece0c3e5dadddd',
    additional: '9013617817dda947e135ee6dd3653382',
    encrypted: '16e375b4973b339d3f746c1c5a568bc7526e909ddff1e19c95c94a6ccff210c9a4a40679de5760c396ac0e2ceb1234f9f5fe26',
    tag: 'abd3d26d65a6275f7a4f56b422acab49',
  },
] as const

describe('AES-256-GCM', () => {
  it.each(vectors)('encrypts the published $name', ({ key, iv, text, additional, encrypted, tag }) => {
    expect(encryptBytes(hex(key), hex(iv), hex(text), hex(additional)).toString('hex')).toBe(encrypted + tag)
  })

  it.each(vectors)('decrypts the published $name, and nothing where any bit of it is another', ({ key, iv, text, additional, encrypted, tag }) => {
    expect(decryptBytes(hex(key), hex(iv), hex(encrypted + tag), hex(additional))?.toString('hex')).toBe(text)
    const whole = hex(encrypted + tag)
    const flipped = Array.from({ length: whole.length * 8 }, (_, bit) => flip(whole, bit))
    expect(flipped.filter((one) => decryptBytes(hex(key), hex(iv), one, hex(additional)) !== null)).toEqual([])
    expect(decryptBytes(hex(key), hex(iv), whole, Buffer.concat([hex(additional), hex('00')]))).toBeNull()
    expect(decryptBytes(hex(key), flip(hex(iv), 0), whole, hex(additional))).toBeNull()
    expect(decryptBytes(hex(key), hex(iv), hex(tag).subarray(1), hex(additional))).toBeNull()
  })
})

/** Krawczyk 2010 (RFC 5869, appendix A): test cases 1 to 3, for SHA-256 [found-2nd]. */
const derivations = [
  {
    name: 'test case 1',
    key: '0b'.repeat(22),
    salt: '000102030405060708090a0b0c',
    info: 'f0f1f2f3f4f5f6f7f8f9',
    derived: '3cb25f25faacd57a90434f64d0362f2a2d2d0a90cf1a5a4c5db02d56ecc4c5bf34007208d5b887185865',
  },
  {
    name: 'test case 2',
    key: countUp(0x00, 0x4f),
    salt: countUp(0x60, 0xaf),
    info: countUp(0xb0, 0xff),
    derived:
      'b11e398dc80327a1c8e7f78c596a49344f012eda2d4efad8a050cc4c19afa97c59045a99cac7827271cb41c65e590e09da3275600c2f09b8367793a9aca3db71cc30c58179ec3e87c14c01d5c1f3434f1d87',
  },
  { name: 'test case 3', key: '0b'.repeat(22), salt: '', info: '', derived: '8da4e775a563c18f715f802a063c5a31b8a11f5c5ee1879ec3454e5f3c738d2d9d201395faa4b61a96c8' },
] as const

describe('HKDF-SHA-256', () => {
  it.each(derivations)('as written down from RFC 5869 gives its $name', ({ key, salt, info, derived }) => {
    expect(deriveByStandard(hex(key), hex(salt), hex(info), derived.length / 2).toString('hex')).toBe(derived)
  })

  it('is what keys are derived by: test case 3, and purposes against the standard written down', () => {
    const { key, derived } = derivations[2]
    expect(deriveBytes(createSecretKey(hex(key)), '', derived.length / 2).toString('hex')).toBe(derived)
    const purposes = ['nuchal 1 sealing', 'nuchal 1 digests', 'nuchal 1 key id']
    const ours = purposes.map((purpose) => deriveBytes(createSecretKey(hex(key)), purpose, 32))
    expect(ours).toEqual(purposes.map((purpose) => deriveByStandard(hex(key), hex(''), Buffer.from(purpose), 32)))
  })
})

describe('what is kept', () => {
  const bytes = Buffer.from(countUp(0x20, 0x3f), 'hex')
  const cipher = createCipher(dataKeyOf(bytes))
  const derive = (purpose: string, length: number): Buffer => deriveByStandard(bytes, hex(''), Buffer.from(purpose), length)

  it('can be opened by anybody who has the key and the standards, without our program', () => {
    const [mark, version, keyId, base64] = cipher.seal('the left hand is numb', 'document:chart-1').split(':')
    const sealed = Buffer.from(base64 ?? '', 'base64')
    const opened = decryptBytes(derive('nuchal 1 sealing', 32), sealed.subarray(0, 12), sealed.subarray(12), Buffer.from(`sealed:1:${keyId}:document:chart-1`))
    expect([mark, version, keyId, opened?.toString()]).toEqual(['sealed', '1', derive('nuchal 1 key id', 8).toString('hex'), 'the left hand is numb'])
  })

  it('is looked up by HMAC-SHA-256 under a key of its own', () => {
    const expected = createHmac('sha256', derive('nuchal 1 digests', 32)).update('telegram 4711').digest('hex')
    expect(cipher.digest('telegram 4711')).toBe(expected)
  })
})

function flip(bytes: Buffer, bit: number): Buffer {
  const changed = Buffer.from(bytes)
  changed[bit >> 3] = (changed[bit >> 3] ?? 0) ^ (1 << (bit & 7))
  return changed
}

function countUp(from: number, to: number): string {
  return Buffer.from(Array.from({ length: to - from + 1 }, (_, at) => from + at)).toString('hex')
}
