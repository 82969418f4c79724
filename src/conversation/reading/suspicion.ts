// What the phrases of the lexicon do not hold may still sound like something being wrong: an index of suspicion, learnt from
// labelled messages. It never alarms; it makes the bot ask.
import type { Suspicion } from '#src/content/suspicion.ts'
import { askedAbout, type Asked } from './read-signs.ts'
import { endsSentence, type Token } from './token.ts'

/** How suspicious a text sounds, and its most suspicious words: tokens `start` to `end` (exclusive). */
export interface Suspected {
  /** Log odds; suspicious from the weights' threshold on. */
  readonly score: number
  readonly start: number
  readonly end: number
}

const longestBeginning = 5
const shortestCut = 5

/**
 * What is weighed at one token: the word, how it begins (for its other forms and for slips), the word with the next one and
 * with the one after that. Every number is the same; marks part sentences.
 */
export function cluesAt(tokens: readonly Token[], index: number): readonly string[] {
  const word = wordAt(tokens, index)
  if (word === null) return []
  const clues = [word]
  if (word.length >= shortestCut) clues.push(`${word.slice(0, Math.min(longestBeginning, word.length - 1))}~`)
  const next = wordAt(tokens, index + 1)
  if (next === null) return clues
  clues.push(`${word} ${next}`)
  const second = wordAt(tokens, index + 2)
  if (second !== null) clues.push(`${word} _ ${second}`)
  return clues
}

function wordAt(tokens: readonly Token[], index: number): string | null {
  const token = tokens[index]
  if (token === undefined || token.kind === 'mark') return null
  return token.kind === 'number' ? '#' : token.text
}

/**
 * Weighs a text as a whole and each of its sentences: much that is harmless must not hide the one that is not. A clue counts
 * once, however often it stands there. Linear in the text.
 */
export function suspicionIn(tokens: readonly Token[], { bias, weights }: Suspicion): Suspected {
  const weighed = new Set<string>()
  let [whole, sentence, worst] = [0, 0, -Infinity]
  // The run of tokens with the largest sum.
  let [best, start, end] = [0, 0, 0]
  let [run, runStart] = [0, 0]
  for (let index = 0; index < tokens.length; index += 1) {
    let weight = 0
    for (const clue of cluesAt(tokens, index)) {
      const its = weights.get(clue)
      if (its === undefined || weighed.has(clue)) continue
      weighed.add(clue)
      weight += its
    }
    whole += weight
    sentence += weight
    if (index === tokens.length - 1 || endsSentence(tokens[index] as Token)) {
      worst = Math.max(worst, sentence)
      sentence = 0
    }
    if (run <= 0) [run, runStart] = [0, index]
    run += weight
    if (run > best) [best, start, end] = [run, runStart, index + 1]
  }
  return { score: bias + Math.max(whole, worst), start, end }
}

/** What sounds like a sign, and like none in particular. */
export function suspectedIn(tokens: readonly Token[], suspicion: Suspicion): Asked | null {
  const { score, start, end } = suspicionIn(tokens, suspicion)
  if (score < suspicion.threshold || end <= start) return null
  return askedAbout('something-else', { list: 'suspicion', form: 'says', start, end, gaps: [] })
}
