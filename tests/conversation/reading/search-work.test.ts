// The work of a search is linear in the text, whatever the text: counted in comparisons, never in time.
import { readFileSync } from 'node:fs'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { readLexicon } from '#src/content/lexicon.ts'
import { correctSlips } from '#src/conversation/reading/correct-slips.ts'
import { findPhrases } from '#src/conversation/reading/find-phrases.ts'
import { phraseBookOf } from '#src/conversation/reading/phrase-book.ts'
import { tokenise } from '#src/conversation/reading/token.ts'
import { parameters } from '#tests/properties/runs.ts'

/** TODO */
const mostStepsAToken = 1e9
const longestText = 4096
const books = ['en', 'es'].map((name) => ({ name, book: phraseBookOf(readLexicon(readFileSync(`content/lexicon/${name}.yaml`, 'utf8'), name)) }))

describe.each(books)('a search in "$name"', ({ book }) => {
  const words = [...book.vocabulary]
  const marks = fc.constantFrom('.', ',', '?', '-', ':', '\n', '…', '(', '/', '<b>', '🙂')
  const digits = fc.constantFrom('0', '2', '7/10', '2-3', '0,5', '18:00')
  const word = fc.constantFrom(...words)
  /** Beginnings of words said again and again, and a few words in turn: what a search that looks back would stumble over. */
  const prefix = fc.tuple(word, fc.nat({ max: 6 })).map(([it, length]) => it.slice(0, length + 1))
  const few = fc.tuple(fc.array(fc.oneof(word, prefix, marks), { minLength: 1, maxLength: 4 }), fc.nat({ max: 400 }))
    .map(([items, times]) => `${items.join(' ')} `.repeat(times + 1))
  const any = fc.oneof({ weight: 8, arbitrary: word }, { weight: 2, arbitrary: marks }, { weight: 1, arbitrary: digits }, { weight: 1, arbitrary: prefix }, { weight: 1, arbitrary: few })
  const text = fc.array(any, { maxLength: 600 }).map((items) => items.join(' ').slice(0, longestText))

  it(`takes at most ${mostStepsAToken} comparisons a token`, () => {
    let most = 0
    fc.assert(fc.property(text, (written) => {
      const tokens = correctSlips(tokenise(written, book.lexicon.spellings), book)
      const { steps } = findPhrases(tokens, book)
      if (tokens.length > 20) most = Math.max(most, steps / tokens.length)
      expect(steps).toBeLessThanOrEqual(mostStepsAToken * tokens.length)
    }), parameters(150))
    if (process.env.MEASURE) console.log(book.lexicon.language, most)
  })

  it('takes twice the comparisons for each word of the lexicon said twice as often, and no more', () => {
    const steps = (written: string) => findPhrases(tokenise(written, book.lexicon.spellings), book).steps
    let worst = ['', 0] as [string, number]
    const more = words.filter((it) => {
      const a = steps(`${it} `.repeat(100)) / 100
      if (a > worst[1]) worst = [it, a]
      return steps(`${it} `.repeat(200)) > 2 * steps(`${it} `.repeat(100)) + 100 * 4
    })
    if (process.env.MEASURE) console.log(book.lexicon.language, worst)
    expect(more).toEqual([])
  })
})
