import { createHash, timingSafeEqual } from 'node:crypto'

/** Compared in constant time, whatever the lengths; nothing given is never the secret. */
export function isSameSecret(given: string | null, expected: string): boolean {
  const digest = (text: string): Buffer => createHash('sha256').update(text).digest()
  return timingSafeEqual(digest(given ?? ''), digest(expected)) && given !== null
}
