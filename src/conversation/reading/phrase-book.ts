import type { Lexicon, LexiconList, Phrase, PhraseList, PhrasePart } from '#src/content/lexicon.ts'
import { createSieve, type Needs, type Sieve } from './sieve.ts'
import { placeLists, symptomLists } from './sign-rules.ts'
import { tokenise, type Token } from './token.ts'

/** One place in a phrase. Words may be single, or several where a spelling stands for more than one. */
export type BookPart =
  | { readonly kind: 'words'; readonly single: ReadonlySet<string>; readonly several: readonly (readonly string[])[]; readonly isOptional: boolean }
  | { readonly kind: 'list'; readonly list: string; readonly isOptional: boolean }
  | { readonly kind: 'number'; readonly isOptional: boolean }
  | { readonly kind: 'gap'; readonly isOptional: false }

/** How an idea is said: `names` are things one has, `says` everything else. */
export type Form = keyof PhraseList

export interface BookPhrase {
  /** Its place in {@link PhraseBook.phrases}. */
  readonly id: number
  /** The place of its list in {@link PhraseBook.lists}. */
  readonly list: number
  readonly form: Form
  readonly parts: readonly BookPart[]
  /** Words that can be the whole phrase. */
  readonly alone: ReadonlySet<string>
  /** It is one word and nothing else. */
  readonly isWord: boolean
  /** For each word that can stand first of several, what may stand second; null for anything. */
  readonly pairs: ReadonlyMap<string, ReadonlySet<string> | null>
  readonly needs: Needs
  /** Lists of which something must have been found. */
  readonly needsLists: readonly string[]
}

/** A lexicon made ready to be searched. */
export interface PhraseBook {
  readonly lexicon: Lexicon
  /** A list comes after those it refers to. */
  readonly lists: readonly string[]
  /** In the order of their lists. */
  readonly phrases: readonly BookPhrase[]
  /** The ids of the phrases that may stand where these two tokens are. */
  readonly phrasesAt: (first: Token, second: Token | undefined) => readonly number[]
  readonly vocabulary: ReadonlySet<string>
  /** By the ids of the phrases. */
  readonly sieve: Sieve
  /** The words in which a slip is corrected. */
  readonly correctable: readonly string[]
}

const shortestCorrected = 5
const correctedLists: readonly LexiconList[] = [
  ...symptomLists, ...placeLists, 'corrected',
  'help', 'why', 'why-exactly', 'not-today', 'later', 'done', 'skip', 'ready', 'none', 'symptom',
  'no-pain', 'no-reserve', 'steady', 'praise', 'shaky', 'lost', 'moved', 'stop-whole', 'stop-anywhere',
]

const books = new WeakMap<Lexicon, PhraseBook>()

/** The book of a lexicon; made once for each, since a lexicon never changes. */
export function phraseBookOf(lexicon: Lexicon): PhraseBook {
  const known = books.get(lexicon)
  if (known !== undefined) return known
  const book = makeBook(lexicon)
  books.set(lexicon, book)
  return book
}

function makeBook(lexicon: Lexicon): PhraseBook {
  const lists = inOrderOfReference(lexicon.lists)
  const beginnings = new Map<string, Beginning>()
  const longest = new Map<string, number>()
  let size = 0
  const phrases = lists.flatMap((name, list) => {
    const { names, says } = lexicon.lists.get(name) ?? { names: [], says: [] }
    const compile = (form: Form, of: readonly Phrase[]): readonly BookPhrase[] =>
      of.map((phrase) => {
        const parts = phrase.map((part) => partOf(part, lexicon))
        const { alone, pairs } = beginningOf(parts, beginnings)
        return { id: size++, list, form, parts, alone, pairs, isWord: isOneWord(parts), needs: needsOf(parts, longest), needsLists: listsIn(parts) }
      })
    const own = [...compile('names', names), ...compile('says', says)]
    longest.set(name, Math.max(0, ...own.map(({ needs }) => needs.longest)))
    beginnings.set(name, own.map(({ parts }) => beginningOf(parts, beginnings)).reduce(either))
    return own
  })
  return {
    lexicon,
    lists,
    phrases,
    phrasesAt: indexPhrases(phrases, lexicon),
    sieve: createSieve(phrases.map(({ needs }) => needs)),
    vocabulary: vocabularyOf(phrases, lexicon),
    correctable: correctableOf(phrases, lists, lexicon),
  }
}

function partOf(part: PhrasePart, lexicon: Lexicon): BookPart {
  if (part.kind === 'gap') return { kind: 'gap', isOptional: false }
  if (part.kind !== 'word') return part
  const spelt = part.anyOf.map((word) => tokenise(word, lexicon.spellings).map((token) => token.text))
  const single = new Set(spelt.flatMap((texts) => (texts.length === 1 ? texts : [])))
  return { kind: 'words', single, several: spelt.filter((texts) => texts.length > 1), isOptional: part.isOptional }
}

function isOneWord(parts: readonly BookPart[]): boolean {
  return parts.length === 1 && isPlainWord(parts[0])
}

/** Tokens that a gap may skip. */
export const longestGap = 3

function longestOf(parts: readonly BookPart[], lists: ReadonlyMap<string, number>): number {
  return parts.reduce((sum, part) => {
    if (part.kind === 'gap') return sum + longestGap
    if (part.kind === 'list') return sum + (lists.get(part.list) ?? 0)
    return sum + (part.kind === 'words' ? Math.max(1, ...part.several.map((words) => words.length)) : 1)
  }, 0)
}

function isPlainWord(part: BookPart | undefined): boolean {
  return part?.kind === 'words' && !part.isOptional && part.several.length === 0
}

/** Two plain words at the beginning are looked up before, and need no second look. Fewest first, since they rule out the most. */
function needsOf(parts: readonly BookPart[], lists: ReadonlyMap<string, number>): Needs {
  const lookedUp = isPlainWord(parts[0]) ? (isPlainWord(parts[1]) ? 2 : 1) : 0
  const words = parts.slice(lookedUp)
    .flatMap((part) => (part.kind === 'words' && !part.isOptional ? [[...part.single, ...part.several.map(([first = '']) => first)]] : []))
    .toSorted((a, b) => a.length - b.length)
  return { words, longest: longestOf(parts, lists) }
}

function listsIn(parts: readonly BookPart[]): readonly string[] {
  return parts.flatMap((part) => (part.kind === 'list' && !part.isOptional ? [part.list] : []))
}

/** Stands for any number in sets of words. */
const anyNumber = '#'

/** Words, or null where anything may stand. */
type Words = ReadonlySet<string> | null

/** How something can begin. */
interface Beginning {
  /** Words that can be the whole of it. */
  readonly alone: ReadonlySet<string>
  /** For each word that can stand first of several, what may stand second. */
  readonly pairs: ReadonlyMap<string, Words>
  readonly canBeNothing: boolean
  /** It begins with a gap. */
  readonly isGap: boolean
}

type Beginnings = ReadonlyMap<string, Beginning>

const noWords: ReadonlySet<string> = new Set()
const noPairs: ReadonlyMap<string, Words> = new Map()
const nothingAtAll: Beginning = { alone: noWords, pairs: noPairs, canBeNothing: true, isGap: false }

function beginningOf(parts: readonly BookPart[], lists: Beginnings): Beginning {
  return parts.reduceRight((rest, part) => {
    const whole = joined(beginningOfPart(part, lists), rest)
    return part.isOptional ? either(whole, rest) : whole
  }, nothingAtAll)
}

function beginningOfPart(part: BookPart, lists: Beginnings): Beginning {
  if (part.kind === 'gap') return { alone: noWords, pairs: noPairs, canBeNothing: true, isGap: true }
  if (part.kind === 'number') return { alone: new Set([anyNumber]), pairs: noPairs, canBeNothing: false, isGap: false }
  if (part.kind === 'list') return lists.get(part.list) ?? nothingAtAll
  const pairs = new Map<string, Words>()
  for (const [word = '', next = ''] of part.several) addPair(pairs, word, new Set([next]))
  return { alone: part.single, pairs, canBeNothing: false, isGap: false }
}

function joined(own: Beginning, rest: Beginning): Beginning {
  if (own.isGap) return { ...nothingAtAll, canBeNothing: rest.canBeNothing, isGap: true }
  const pairs = new Map(own.pairs)
  const next = firstOf(rest)
  if (next === null || next.size > 0) for (const word of own.alone) addPair(pairs, word, next)
  if (own.canBeNothing) for (const [word, second] of rest.pairs) addPair(pairs, word, second)
  return {
    alone: new Set([...(rest.canBeNothing ? own.alone : []), ...(own.canBeNothing ? rest.alone : [])]),
    pairs,
    canBeNothing: own.canBeNothing && rest.canBeNothing,
    isGap: false,
  }
}

function either(a: Beginning, b: Beginning): Beginning {
  const pairs = new Map(a.pairs)
  for (const [word, second] of b.pairs) addPair(pairs, word, second)
  return {
    alone: new Set([...a.alone, ...b.alone]),
    pairs,
    canBeNothing: a.canBeNothing || b.canBeNothing,
    isGap: a.isGap || b.isGap,
  }
}

function firstOf({ alone, pairs, isGap }: Beginning): Words {
  return isGap ? null : new Set([...alone, ...pairs.keys()])
}

function addPair(pairs: Map<string, Words>, word: string, second: Words): void {
  const known = pairs.get(word)
  if (known === undefined) pairs.set(word, second)
  else if (known !== null) pairs.set(word, second === null ? null : new Set([...known, ...second]))
}

/** Pairs of words are remembered up to here; nobody's chats have more, and a hostile one must not fill the memory. */
const mostPairs = 20_000

function indexPhrases(phrases: readonly BookPhrase[], { numbers }: Lexicon): PhraseBook['phrasesAt'] {
  const byFirst = new Map<string, BookPhrase[]>()
  for (const phrase of phrases) {
    for (const word of new Set([...phrase.alone, ...phrase.pairs.keys()])) {
      const here = byFirst.get(word)
      if (here === undefined) byFirst.set(word, [phrase])
      else here.push(phrase)
    }
  }
  const keysOf = (token: Token | undefined): readonly string[] => {
    if (token === undefined || token.kind === 'mark') return []
    if (token.kind === 'number') return [token.text, anyNumber]
    return numbers.has(token.text) ? [token.text, anyNumber] : [token.text]
  }
  const known = new Map<string, Map<string, readonly number[]>>()
  let pairs = 0
  const find = (first: readonly string[], second: readonly string[]): readonly number[] => {
    const found = new Set<number>()
    for (const word of first) {
      for (const phrase of byFirst.get(word) ?? []) {
        const next = phrase.pairs.get(word)
        if (phrase.alone.has(word) || next === null || (next !== undefined && second.some((one) => next.has(one)))) found.add(phrase.id)
      }
    }
    return [...found]
  }
  return (firstToken, secondToken) => {
    const key = keyOf(firstToken)
    const nextKey = keyOf(secondToken)
    const remembered = known.get(key)?.get(nextKey)
    if (remembered !== undefined) return remembered
    const [first, second] = [keysOf(firstToken), keysOf(secondToken)]
    if (!first.some((word) => byFirst.has(word))) return none
    const ofFirst = known.get(key) ?? new Map<string, readonly number[]>()
    if (pairs >= mostPairs) [known, ofFirst].forEach((map) => map.clear())
    pairs = pairs >= mostPairs ? 1 : pairs + 1
    const found = find(first, second)
    known.set(key, ofFirst.set(nextKey, found))
    return found
  }
}

const none: readonly number[] = []

/** Marks are all alike: no phrase goes on over one. */
function keyOf(token: Token | undefined): string {
  return token === undefined || token.kind === 'mark' ? '' : token.text
}

function vocabularyOf(phrases: readonly BookPhrase[], { numbers }: Lexicon): ReadonlySet<string> {
  const words = phrases.flatMap(({ parts }) => parts.flatMap((part) => (part.kind === 'words' ? [...part.single, ...part.several.flat()] : [])))
  return new Set([...words, ...numbers.keys()])
}

/** Words that are a whole phrase of one of these lists, and the numbers. */
function correctableOf(phrases: readonly BookPhrase[], lists: readonly string[], { numbers }: Lexicon): readonly string[] {
  const isCorrected = new Set<string>(correctedLists)
  const alone = phrases.flatMap(({ list, parts }) => (isCorrected.has(lists[list] ?? '') ? wholeWords(parts) : []))
  return [...new Set([...alone, ...numbers.keys()])].filter((word) => word.length >= shortestCorrected && /^\p{L}+$/u.test(word))
}

function wholeWords(parts: readonly BookPart[]): readonly string[] {
  const required = parts.filter(({ isOptional }) => !isOptional)
  const candidates = required.length === 0 ? parts : required
  return required.length > 1 ? [] : candidates.flatMap((part) => (part.kind === 'words' ? [...part.single] : []))
}

/** Readers of content have made sure that lists do not refer to each other in a circle. */
function inOrderOfReference(lists: ReadonlyMap<string, PhraseList>): readonly string[] {
  const ordered = new Set<string>()
  const visit = (name: string): void => {
    if (ordered.has(name)) return
    const list = lists.get(name) ?? { names: [], says: [] }
    for (const part of [...list.names, ...list.says].flat()) if (part.kind === 'list') visit(part.list)
    ordered.add(name)
  }
  for (const name of lists.keys()) visit(name)
  return [...ordered]
}
