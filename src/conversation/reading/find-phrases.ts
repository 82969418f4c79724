import type { BookPart, BookPhrase, Form, PhraseBook } from './phrase-book.ts'
import type { Token } from './token.ts'

/** A phrase found in the text: tokens `start` to `end` (exclusive), of which `gaps` were not its own words. */
export interface Occurrence {
  readonly list: string
  readonly form: Form
  readonly start: number
  readonly end: number
  readonly gaps: readonly number[]
}

/** Every phrase of the lexicon that stands in a text. */
export interface Found {
  readonly tokens: readonly Token[]
  /** In the order of the text. */
  all(list: string): readonly Occurrence[]
  /** The longest that starts, or ends, exactly there. */
  startingAt(list: string, index: number): Occurrence | undefined
  endingAt(list: string, end: number): Occurrence | undefined
}

const longestGap = 3

type Starts = Map<number, Occurrence[]>

/**
 * Work is linear in the text: each phrase is tried only where its first word stands, and a try looks at no more tokens than
 * the phrase and its gaps allow.
 */
export function findPhrases(tokens: readonly Token[], book: PhraseBook): Found {
  const { numbers } = book.lexicon
  const isNumber = new Set<number>()
  const tries = new Map<number, { readonly phrase: BookPhrase; readonly start: number }[]>()
  tokens.forEach((token, start) => {
    if (token.kind === 'number' || (token.kind === 'word' && numbers.has(token.text))) isNumber.add(start)
    if (token.kind !== 'word') return
    for (const { list, phrase } of book.byFirstWord.get(token.text) ?? []) {
      const here = tries.get(list)
      if (here === undefined) tries.set(list, [{ phrase, start }])
      else here.push({ phrase, start })
    }
  })
  const found = new Map<string, Starts>()
  const search: Search = { tokens, isNumber, found }
  book.lists.forEach(({ name, withoutFirstWord }, list) => {
    const starts: Starts = new Map()
    const tryAt = (phrase: BookPhrase, start: number): void => {
      const match = matchFrom(phrase.parts, 0, start, search)
      if (match !== null) addOccurrence(starts, name, phrase, start, match)
    }
    for (const { phrase, start } of tries.get(list) ?? []) tryAt(phrase, start)
    for (const phrase of withoutFirstWord) {
      for (const start of startsOf(phrase.parts[0], search)) tryAt(phrase, start)
    }
    if (starts.size > 0) found.set(name, starts)
  })
  return indexFound(tokens, found)
}

function startsOf(part: BookPart | undefined, search: Search): Iterable<number> {
  if (part?.kind === 'list') return search.found.get(part.list)?.keys() ?? []
  return part?.kind === 'number' ? search.isNumber : []
}

interface Match {
  readonly end: number
  readonly gaps: readonly number[]
}
interface Search {
  readonly tokens: readonly Token[]
  readonly isNumber: ReadonlySet<number>
  readonly found: ReadonlyMap<string, Starts>
}

function matchFrom(parts: readonly BookPart[], at: number, index: number, search: Search): Match | null {
  const part = parts[at]
  if (part === undefined) return { end: index, gaps: [] }
  const token = search.tokens[index]
  if (part.kind === 'gap') {
    const rest = matchFrom(parts, at + 1, index, search)
    return rest ?? matchGap(parts, at, index, search)
  }
  if (part.kind === 'list') {
    for (const inner of search.found.get(part.list)?.get(index) ?? []) {
      const rest = matchFrom(parts, at + 1, inner.end, search)
      if (rest !== null) return { end: rest.end, gaps: [...inner.gaps, ...rest.gaps] }
    }
    return null
  }
  const fits = part.kind === 'number'
    ? search.isNumber.has(index)
    : token?.kind === 'word' && part.anyOf.includes(token.text)
  return fits ? matchFrom(parts, at + 1, index + 1, search) : null
}

function matchGap(parts: readonly BookPart[], at: number, index: number, search: Search): Match | null {
  for (let length = 1; length <= longestGap; length += 1) {
    const skipped = search.tokens[index + length - 1]
    if (skipped === undefined || skipped.kind === 'mark') return null
    const rest = matchFrom(parts, at + 1, index + length, search)
    if (rest !== null) return { end: rest.end, gaps: [...Array.from({ length }, (_, k) => index + k), ...rest.gaps] }
  }
  return null
}

function addOccurrence(starts: Starts, list: string, phrase: BookPhrase, start: number, match: Match): void {
  const here = starts.get(start) ?? []
  if (here.some((other) => other.end === match.end && other.form === phrase.form)) return
  // Longest first, so that a reference tries the fullest reading before a shorter one.
  starts.set(start, [...here, { list, form: phrase.form, start, ...match }].sort((a, b) => b.end - a.end))
}

function indexFound(tokens: readonly Token[], found: ReadonlyMap<string, Starts>): Found {
  const sorted = new Map([...found].map(([list, starts]) =>
    [list, [...starts.values()].flat().sort((a, b) => a.start - b.start || b.end - a.end)]))
  const ends = new Map<string, Occurrence>()
  for (const [list, occurrences] of sorted) {
    for (const it of occurrences) {
      const key = `${list} ${it.end}`
      if ((ends.get(key)?.start ?? Infinity) > it.start) ends.set(key, it)
    }
  }
  return {
    tokens,
    all: (list) => sorted.get(list) ?? [],
    startingAt: (list, index) => found.get(list)?.get(index)?.[0],
    endingAt: (list, end) => ends.get(`${list} ${end}`),
  }
}
