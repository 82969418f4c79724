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
  /** How many places of phrases were compared with a token: what the search cost. */
  readonly steps: number
}

const longestGap = 3

/** The occurrences of one list by the token at which they start, the longest first. */
type Starts = Map<number, Occurrence[]>

interface Search {
  readonly tokens: readonly Token[]
  readonly words: ReadonlySet<string>
  readonly numbers: ReadonlyMap<string, number>
  readonly found: ReadonlyMap<string, Starts>
  /** Of which phrases the text has the words, as far as that was asked. */
  readonly known: Map<BookPhrase, boolean>
  steps: number
}

interface Match {
  /** Which of the optional parts and spellings were taken: each choice of them counts once, by its first match. */
  readonly way: number
  readonly end: number
  readonly gaps: readonly number[]
}

/**
 * Work is linear in the text: a phrase is tried only where its first two words can stand, and a try looks at no more tokens
 * than the phrase and its gaps allow.
 */
export function findPhrases(tokens: readonly Token[], book: PhraseBook): Found {
  const found = new Map<string, Starts>()
  const words = new Set(tokens.map(({ text }) => text))
  const search: Search = { tokens, words, numbers: book.lexicon.numbers, found, known: new Map(), steps: 0 }
  // By list: a phrase, the token at which to try it, the next phrase, its token, and so on.
  const tries = new Map<number, (BookPhrase | number)[]>()
  tokens.forEach((token, start) => {
    if (token.kind === 'mark') return
    for (const phrase of book.phrasesAt(token, tokens[start + 1])) {
      if (!hasWords(phrase, search)) continue
      const here = tries.get(phrase.list)
      if (here === undefined) tries.set(phrase.list, [phrase, start])
      else here.push(phrase, start)
    }
  })
  // A list comes after those it refers to.
  for (const list of [...tries.keys()].sort((a, b) => a - b)) {
    const name = book.lists[list] ?? ''
    const starts = findList(name, tries.get(list) ?? [], search)
    if (starts.size > 0) found.set(name, starts)
  }
  return indexFound(tokens, found, search.steps)
}

function findList(name: string, tries: readonly (BookPhrase | number)[], search: Search): Starts {
  const starts: Starts = new Map()
  for (let at = 0; at < tries.length; at += 2) {
    const phrase = tries[at] as BookPhrase
    const start = tries[at + 1] as number
    if (phrase.isWord) {
      addOccurrence(starts, { list: name, form: phrase.form, start, end: start + 1, gaps: noGaps })
      continue
    }
    if (!phrase.needsLists.every((needed) => search.found.has(needed))) continue
    for (const { end, gaps } of matchFrom(phrase.parts, 0, start, search)) {
      if (end > start) addOccurrence(starts, { list: name, form: phrase.form, start, end, gaps })
    }
  }
  return starts
}

/** Most phrases begin in a text and end elsewhere: "my arm" is often said, and seldom "my arm … asleep". */
function hasWords(phrase: BookPhrase, { words, known }: Search): boolean {
  const before = known.get(phrase)
  if (before !== undefined) return before
  const has = phrase.needs.every((some) => some.some((word) => words.has(word)))
  known.set(phrase, has)
  return has
}

const noMatch: readonly Match[] = []
const noGaps: readonly number[] = []

function matchFrom(parts: readonly BookPart[], at: number, index: number, search: Search): readonly Match[] {
  const part = parts[at]
  if (part === undefined) return [{ way: 0, end: index, gaps: noGaps }]
  search.steps += 1
  if (part.kind === 'gap') return matchGap(parts, at, index, search)
  const taken = matchPart(part, parts, at, index, search)
  if (!part.isOptional) return taken
  const left = matchFrom(parts, at + 1, index, search)
  if (taken.length === 0) return numbered(left, 0, part)
  return [...numbered(left, 0, part), ...taken]
}

/** With the part itself there. */
function matchPart(part: Exclude<BookPart, { kind: 'gap' }>, parts: readonly BookPart[], at: number, index: number, search: Search): readonly Match[] {
  const token = search.tokens[index]
  if (token === undefined || token.kind === 'mark') return noMatch
  if (part.kind === 'number') {
    const isNumber = token.kind === 'number' || search.numbers.has(token.text)
    return isNumber ? numbered(matchFrom(parts, at + 1, index + 1, search), 1, part) : noMatch
  }
  if (part.kind === 'list') return matchList(part.list, parts, at, index, search)
  // Digits are a word as well, where a phrase names them: "pain 9".
  const single = part.single.has(token.text) ? numbered(matchFrom(parts, at + 1, index + 1, search), 1, part) : noMatch
  if (part.several.length === 0) return single
  const several = part.several.flatMap((words, which) => {
    const fits = words.every((word, offset) => search.tokens[index + offset]?.kind === 'word' && search.tokens[index + offset]?.text === word)
    return fits ? numbered(matchFrom(parts, at + 1, index + words.length, search), 2 + which, part) : noMatch
  })
  return [...single, ...several]
}

function matchList(list: string, parts: readonly BookPart[], at: number, index: number, search: Search): readonly Match[] {
  const inners = search.found.get(list)?.get(index)
  if (inners === undefined) return noMatch
  const matches: Match[] = []
  for (const inner of inners) {
    for (const rest of matchFrom(parts, at + 1, inner.end, search)) {
      addFirst(matches, inner.gaps.length === 0 ? rest : { ...rest, gaps: [...inner.gaps, ...rest.gaps] })
    }
  }
  const part = parts[at]
  return part === undefined ? matches : numbered(matches, 1, part)
}

function matchGap(parts: readonly BookPart[], at: number, index: number, search: Search): readonly Match[] {
  const matches: Match[] = [...matchFrom(parts, at + 1, index, search)]
  for (let length = 1; length <= longestGap; length += 1) {
    const skipped = search.tokens[index + length - 1]
    if (skipped === undefined || skipped.kind === 'mark') break
    for (const rest of matchFrom(parts, at + 1, index + length, search)) {
      addFirst(matches, { ...rest, gaps: [...Array.from({ length }, (_, k) => index + k), ...rest.gaps] })
    }
  }
  return matches
}

function addFirst(matches: Match[], match: Match): void {
  if (!matches.some(({ way }) => way === match.way)) matches.push(match)
}

/** Puts a part's own choice before those of the parts behind it. */
function numbered(matches: readonly Match[], choice: number, part: BookPart): readonly Match[] {
  if (matches.length === 0) return noMatch
  const choices = part.kind === 'words' ? 2 + part.several.length : 2
  return matches.map(({ way, end, gaps }) => ({ way: way * choices + choice, end, gaps }))
}

function addOccurrence(starts: Starts, it: Occurrence): void {
  const here = starts.get(it.start)
  if (here === undefined) {
    starts.set(it.start, [it])
    return
  }
  if (here.some((other) => other.end === it.end && other.form === it.form)) return
  // Longest first, so that a reference tries the fullest reading before a shorter one.
  const place = here.findIndex((other) => other.end < it.end)
  here.splice(place < 0 ? here.length : place, 0, it)
}

function indexFound(tokens: readonly Token[], found: ReadonlyMap<string, Starts>, steps: number): Found {
  const inOrder = new Map<string, readonly Occurrence[]>()
  const ends = new Map<string, ReadonlyMap<number, Occurrence>>()
  const all = (list: string): readonly Occurrence[] => {
    const known = inOrder.get(list)
    if (known !== undefined) return known
    const starts = found.get(list)
    // Tried from the first token to the last, so that they stand in order already.
    const inText = starts === undefined ? nothing : [...starts.values()].flat()
    inOrder.set(list, inText)
    return inText
  }
  const endsOf = (list: string): ReadonlyMap<number, Occurrence> => {
    const known = ends.get(list)
    if (known !== undefined) return known
    const byEnd = new Map<number, Occurrence>()
    // In the order of the text, so that the first to come is the longest.
    for (const it of all(list)) if (!byEnd.has(it.end)) byEnd.set(it.end, it)
    ends.set(list, byEnd)
    return byEnd
  }
  return {
    tokens,
    steps,
    all,
    startingAt: (list, index) => found.get(list)?.get(index)?.[0],
    endingAt: (list, end) => (found.has(list) ? endsOf(list).get(end) : undefined),
  }
}

const nothing: readonly Occurrence[] = []
