import { brandAs } from '#src/domain/identifier.ts'
import type { DocumentId } from '#src/domain/identifier.ts'

/** File systems take 255 bytes; the rest is room for endings. */
const longestName = 200

/**
 * A document's id as a file name: lower-case letters, digits, `-`, `_` and inner dots stand for themselves, every other
 * byte as `%XX`. Capitals too, because some file systems do not tell `a` from `A`.
 */
export function documentFileName(id: DocumentId): string {
  let name = ''
  for (const byte of Buffer.from(id, 'utf8')) {
    const character = String.fromCharCode(byte)
    const isPlain = /[a-z0-9_-]/.test(character) || (character === '.' && name !== '')
    name += isPlain ? character : `%${byte.toString(16).toUpperCase().padStart(2, '0')}`
  }
  if (name === '' || name.length > longestName || decode(name) !== id) {
    throw new RangeError(`a document id must be 1 to ${longestName} bytes of well-formed text as a file name`)
  }
  return name
}

/** The id that a file name stands for, or null if no document is ever kept under that name. */
export function parseDocumentFileName(name: string): DocumentId | null {
  const id = decode(name)
  if (id === null || id === '' || name.length > longestName) return null
  return documentFileName(brandAs<DocumentId>(id)) === name ? brandAs<DocumentId>(id) : null
}

function decode(name: string): string | null {
  try {
    return decodeURIComponent(name)
  } catch {
    return null
  }
}
