/** One place in a phrase of the lexicon. */
export type PhrasePart =
  | { readonly kind: 'word'; readonly anyOf: readonly string[]; readonly isOptional: boolean }
  /** Any phrase of another list. */
  | { readonly kind: 'list'; readonly list: string; readonly isOptional: boolean }
  /** A number in digits or in words. */
  | { readonly kind: 'number'; readonly isOptional: boolean }
  /** Up to three words of any kind, within one clause. */
  | { readonly kind: 'gap' }

export type Phrase = readonly PhrasePart[]

const listName = /^\{([a-z][a-z-]*)\}$/u
const wordChoice = /^[^\s{}()|#.]+$/u

/** Reads `can't|cannot .. feel (my) {arm}`; null where the text is not of that form. */
export function parsePhrase(text: string): Phrase | null {
  const parts: PhrasePart[] = []
  for (const piece of text.trim().split(/\s+/u)) {
    const part = parsePart(piece)
    if (part === null) return null
    parts.push(part)
  }
  // A gap or an optional part at either end would match everywhere or say nothing.
  const isAnchored = [parts[0], parts.at(-1)].every((part) => part !== undefined && part.kind !== 'gap')
  return isAnchored && parts.some((part) => part.kind !== 'gap' && !part.isOptional) ? parts : null
}

function parsePart(piece: string): PhrasePart | null {
  if (piece === '..') return { kind: 'gap' }
  const isOptional = piece.startsWith('(') && piece.endsWith(')')
  const inner = isOptional ? piece.slice(1, -1) : piece
  if (inner === '#') return { kind: 'number', isOptional }
  const list = listName.exec(inner)?.[1]
  if (list !== undefined) return { kind: 'list', list, isOptional }
  const anyOf = inner.split('|')
  return anyOf.every((word) => wordChoice.test(word)) ? { kind: 'word', anyOf, isOptional } : null
}

/** Every way of saying a phrase; null where it is not of words alone. */
export function waysOf(phrase: Phrase): readonly string[] | null {
  let ways: readonly string[] = ['']
  for (const part of phrase) {
    if (part.kind !== 'word') return null
    const longer = ways.flatMap((way) => part.anyOf.map((word) => `${way} ${word}`.trim()))
    ways = part.isOptional ? [...ways, ...longer] : longer
  }
  return ways
}
