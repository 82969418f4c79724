import type { PhraseBook } from './phrase-book.ts'
import type { Token } from './token.ts'

const shortestTyped = 4
const lengthForTwo = 9
const longestTyped = 24

/** Replaces mistyped words by the lexicon's: one slip from five letters on, two from nine; real words are left alone. */
export function correctSlips(tokens: readonly Token[], book: PhraseBook): readonly Token[] {
  const meant = new Map<string, string>()
  return tokens.map((token) => {
    if (token.kind !== 'word') return token
    const known = meant.get(token.text)
    const text = known ?? wordMeant(token.text, book)
    if (known === undefined) meant.set(token.text, text)
    return text === token.text ? token : { ...token, text }
  })
}

function isWord(text: string, book: PhraseBook): boolean {
  return book.vocabulary.has(text) || book.lexicon.everyday.has(text) || book.lexicon.spellings.has(text)
}

function wordMeant(typed: string, book: PhraseBook): string {
  if (isWord(typed, book)) return typed
  // "sooo", "stoooop", "dizzzzy": a letter held down.
  for (const kept of ['$1$1', '$1']) {
    const squeezed = typed.replace(/(\p{L})\1{2,}/gu, kept)
    if (squeezed !== typed && isWord(squeezed, book)) return squeezed
  }
  if (typed.length < shortestTyped || typed.length > longestTyped) return typed
  let best = typed
  let fewest = Infinity
  const letters = lettersIn(typed)
  for (const { word, letters: others } of candidatesOf(book.correctable)) {
    const allowed = word.length >= lengthForTwo ? 2 : 1
    if (Math.abs(word.length - typed.length) > allowed) continue
    // A slip changes at most two of the letters that occur.
    if (countBits(letters ^ others) > 2 * allowed) continue
    const slips = countSlips(typed, word)
    if (slips <= allowed && slips < fewest) {
      best = word
      fewest = slips
    }
  }
  return best
}

interface Candidate {
  readonly word: string
  readonly letters: number
}

const candidates = new WeakMap<readonly string[], readonly Candidate[]>()

function candidatesOf(words: readonly string[]): readonly Candidate[] {
  const known = candidates.get(words)
  if (known !== undefined) return known
  const made = words.map((word) => ({ word, letters: lettersIn(word) }))
  candidates.set(words, made)
  return made
}

/** Which letters occur, a bit each; several letters may share a bit, which only lets more through. */
function lettersIn(word: string): number {
  let letters = 0
  for (let index = 0; index < word.length; index += 1) letters |= 1 << (word.charCodeAt(index) & 31)
  return letters
}

function countBits(bits: number): number {
  let count = 0
  for (let rest = bits; rest !== 0; rest &= rest - 1) count += 1
  return count
}

/** Letters put in, left out, changed, or two neighbours swapped (optimal string alignment distance). */
export function countSlips(a: string, b: string): number {
  let before: number[] = []
  let last = Array.from({ length: b.length + 1 }, (_, index) => index)
  for (let row = 1; row <= a.length; row += 1) {
    const current = [row]
    for (let column = 1; column <= b.length; column += 1) {
      const isSame = a[row - 1] === b[column - 1]
      const changed = (last[column - 1] ?? 0) + (isSame ? 0 : 1)
      let slips = Math.min((last[column] ?? 0) + 1, (current[column - 1] ?? 0) + 1, changed)
      const isSwap = row > 1 && column > 1 && a[row - 1] === b[column - 2] && a[row - 2] === b[column - 1]
      if (isSwap) slips = Math.min(slips, (before[column - 2] ?? 0) + 1)
      current.push(slips)
    }
    before = last
    last = current
  }
  return last[b.length] ?? 0
}
