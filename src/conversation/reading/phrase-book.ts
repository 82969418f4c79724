import type { Lexicon, LexiconList, Phrase, PhraseList } from '#src/content/lexicon.ts'
import { placeLists, symptomLists } from './sign-rules.ts'
import { tokenise } from './token.ts'

export type BookPart =
  | { readonly kind: 'word'; readonly anyOf: readonly string[] }
  | { readonly kind: 'list'; readonly list: string }
  | { readonly kind: 'number' }
  | { readonly kind: 'gap' }

/** How an idea is said: `names` are things one has, `says` everything else. */
export type Form = keyof PhraseList

export interface BookPhrase {
  readonly form: Form
  readonly parts: readonly BookPart[]
}

export interface BookList {
  readonly name: string
  readonly phrases: readonly BookPhrase[]
  /** Those that do not begin with a word. */
  readonly withoutFirstWord: readonly BookPhrase[]
}

/** A lexicon made ready to be searched. */
export interface PhraseBook {
  readonly lexicon: Lexicon
  /** A list comes after those it refers to. */
  readonly lists: readonly BookList[]
  /** Phrases by the word they begin with, each with the place of its list in `lists`. */
  readonly byFirstWord: ReadonlyMap<string, readonly { readonly list: number; readonly phrase: BookPhrase }[]>
  readonly vocabulary: ReadonlySet<string>
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
  const lists = inOrderOfReference(lexicon.lists).map((name) => {
    const list = lexicon.lists.get(name) ?? { names: [], says: [] }
    const inForm = (form: Form): readonly BookPhrase[] =>
      list[form].flatMap((phrase) => variantsOf(phrase, lexicon).map((parts) => ({ form, parts })))
    const phrases = [...inForm('names'), ...inForm('says')]
    return { name, phrases, withoutFirstWord: phrases.filter(({ parts }) => parts[0]?.kind !== 'word') }
  })
  const alone = lists.filter(({ name }) => (correctedLists as readonly string[]).includes(name))
    .flatMap(({ phrases }) => phrases)
    .flatMap(({ parts: [part, ...rest] }) => (part?.kind === 'word' && rest.length === 0 ? part.anyOf : []))
  const correctable = [...new Set([...alone, ...lexicon.numbers.keys()])]
    .filter((word) => word.length >= shortestCorrected && /^\p{L}+$/u.test(word))
  const words = lists.flatMap(({ phrases }) => phrases)
    .flatMap(({ parts }) => parts.flatMap((part) => (part.kind === 'word' ? part.anyOf : [])))
  const vocabulary = new Set([...words, ...lexicon.numbers.keys()])
  return { lexicon, lists, byFirstWord: indexByFirstWord(lists), vocabulary, correctable }
}

function indexByFirstWord(lists: readonly BookList[]): PhraseBook['byFirstWord'] {
  const index = new Map<string, { list: number; phrase: BookPhrase }[]>()
  lists.forEach(({ phrases }, list) => {
    for (const phrase of phrases) {
      const [first] = phrase.parts
      for (const word of first?.kind === 'word' ? first.anyOf : []) {
        const here = index.get(word)
        if (here === undefined) index.set(word, [{ list, phrase }])
        else here.push({ list, phrase })
      }
    }
  })
  return index
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

/** A phrase with its optional parts taken and left, and its words spelt as a text's words are. */
function variantsOf(phrase: Phrase, lexicon: Lexicon): readonly (readonly BookPart[])[] {
  let variants: readonly (readonly BookPart[])[] = [[]]
  for (const part of phrase) {
    const ways: (readonly BookPart[])[] = part.kind !== 'gap' && part.isOptional ? [[]] : []
    if (part.kind === 'word') ways.push(...waysToSpell(part.anyOf, lexicon))
    else if (part.kind === 'list') ways.push([{ kind: 'list', list: part.list }])
    else ways.push([{ kind: part.kind }])
    variants = variants.flatMap((variant) => ways.map((way) => [...variant, ...way]))
  }
  return variants
}

function waysToSpell(words: readonly string[], lexicon: Lexicon): readonly (readonly BookPart[])[] {
  const spelt = words.map((word) => tokenise(word, lexicon.spellings).map((token) => token.text))
  const single = spelt.flatMap((texts) => (texts.length === 1 ? texts : []))
  const several = spelt.filter((texts) => texts.length > 1)
    .map((texts) => texts.map((text): BookPart => ({ kind: 'word', anyOf: [text] })))
  return single.length === 0 ? several : [[{ kind: 'word', anyOf: single }], ...several]
}
