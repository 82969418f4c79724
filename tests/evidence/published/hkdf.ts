// HKDF with SHA-256, written down from Krawczyk 2010 (RFC 5869, section 2), on HMAC alone.
import { createHmac } from 'node:crypto'

const hashBytes = 32

export function deriveByStandard(key: Uint8Array, salt: Uint8Array, info: Uint8Array, length: number): Buffer {
  // 2.2: a salt that is not given is a string of zeros.
  const extracted = hmac(salt.length === 0 ? Buffer.alloc(hashBytes) : salt, [key])
  // 2.3: T(n) = HMAC(PRK, T(n-1) | info | n), T(0) being empty.
  let block = Buffer.alloc(0)
  const blocks: Buffer[] = []
  for (let number = 1; blocks.length * hashBytes < length; number += 1) {
    block = hmac(extracted, [block, info, Buffer.from([number])])
    blocks.push(block)
  }
  return Buffer.concat(blocks).subarray(0, length)
}

function hmac(key: Uint8Array, parts: readonly Uint8Array[]): Buffer<ArrayBuffer> {
  return Buffer.from(createHmac('sha256', key).update(Buffer.concat(parts)).digest())
}
