import { longestGap, type BookPart, type BookPhrase, type Form, type PhraseBook } from './phrase-book.ts'
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

/** The occurrences of one list by the token at which they start, the longest first. */
type Starts = Map<number, Occurrence[]>

interface Search {
  readonly tokens: readonly Token[]
  readonly numbers: ReadonlyMap<string, number>
  readonly found: ReadonlyMap<string, Starts>
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
  const search: Search = { tokens, numbers: book.lexicon.numbers, found, steps: 0 }
  const tries = triesIn(tokens, book)
  // A phrase comes after those of the lists that it refers to.
  const ids = [...tries.keys()].sort((a, b) => a - b)
  for (let from = 0; from < ids.length;) {
    const list = book.phrases[ids[from] ?? 0]?.list ?? 0
    const name = book.lists[list] ?? ''
    const starts: Starts = new Map()
    for (; book.phrases[ids[from] ?? -1]?.list === list; from += 1) {
      const id = ids[from] ?? 0
      findPhrase(name, book.phrases[id] as BookPhrase, tries.get(id) ?? [], starts, search)
    }
    if (starts.size > 0) found.set(name, inOrder(starts))
  }
  return indexFound(tokens, found, search.steps)
}

/** By phrase, the tokens at which it may begin, from the last to the first. */
function triesIn(tokens: readonly Token[], { phrasesAt, sieve }: PhraseBook): ReadonlyMap<number, readonly number[]> {
  const sifting = sieve.over(tokens.map(({ text }) => text))
  const tries = new Map<number, number[]>()
  for (let start = tokens.length - 1; start >= 0; start -= 1) {
    const token = tokens[start]
    sifting.moveTo(start)
    if (token === undefined || token.kind === 'mark') continue
    for (const id of phrasesAt(token, tokens[start + 1])) {
      if (!sifting.mayBegin(id)) continue
      const here = tries.get(id)
      if (here === undefined) tries.set(id, [start])
      else here.push(start)
    }
  }
  return tries
}

function findPhrase(list: string, phrase: BookPhrase, tries: readonly number[], starts: Starts, search: Search): void {
  const { form, parts, isWord, needsLists } = phrase
  if (!needsLists.every((needed) => search.found.has(needed))) return
  for (const start of tries.toReversed()) {
    if (isWord) {
      addOccurrence(starts, { list, form, start, end: start + 1, gaps: noGaps })
      continue
    }
    for (const { end, gaps } of matchFrom(parts, 0, start, search)) {
      if (end > start) addOccurrence(starts, { list, form, start, end, gaps })
    }
  }
}

/** From the first token to the last. */
function inOrder(starts: Starts): Starts {
  let last = -1
  for (const start of starts.keys()) {
    if (start < last) return new Map([...starts].sort(([a], [b]) => a - b))
    last = start
  }
  return starts
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
  // Without a choice there is nothing to tell apart.
  const hasChoice = part.isOptional || (part.kind === 'words' && part.several.length > 0)
  if (matches.length === 0 || !hasChoice) return matches
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
