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

/**
 * Measured on 2026-11-27: 8 and 9 in a mixed text (English, Spanish), and at worst 232 and 193, where one part of the body is
 * said over and over ("legs legs legs"); a climb over thousands of mixtures found nothing dearer. Half as much again and more
 * is left for lexicons that grow. Square work over 4,096 characters would be in the thousands.
 */
const mostStepsAToken = 400
const longestText = 4096
const books = ['en', 'es'].map((name) => ({ name, book: phraseBookOf(readLexicon(readFileSync(`content/lexicon/${name}.yaml`, 'utf8'), name)) }))

describe.each(books)('a search in "$name"', ({ book }) => {
  const words = [...book.vocabulary]
  const stepsFor = (written: string): number => findPhrases(tokenise(written, book.lexicon.spellings), book).steps
  const costly = words.map((it) => ({ it, steps: stepsFor(`${it} `.repeat(8)) })).toSorted((a, b) => b.steps - a.steps).slice(0, 40)
  const marks = fc.constantFrom('.', ',', '?', '-', ':', '\n', '…', '(', '/', '<b>', '🙂')
  const digits = fc.constantFrom('0', '2', '7/10', '2-3', '0,5', '18:00')
  const word = fc.constantFrom(...words)
  /** Beginnings of words said again and again, and a few words in turn: what a search that looks back would stumble over. */
  const prefix = fc.tuple(word, fc.nat({ max: 6 })).map(([it, length]) => it.slice(0, length + 1))
  const dear = fc.constantFrom(...costly.map(({ it }) => it))
  const few = fc.tuple(fc.array(fc.oneof(dear, word, prefix, marks), { minLength: 1, maxLength: 4 }), fc.nat({ max: 400 }))
    .map(([items, times]) => `${items.join(' ')} `.repeat(times + 1))
  const any = fc.oneof({ weight: 8, arbitrary: word }, { weight: 2, arbitrary: marks },
    { weight: 1, arbitrary: digits }, { weight: 1, arbitrary: prefix }, { weight: 2, arbitrary: few })
  const text = fc.array(any, { maxLength: 600 }).map((items) => items.join(' ').slice(0, longestText))

  it(`takes at most ${mostStepsAToken} comparisons a token`, () => {
    fc.assert(fc.property(text, (written) => {
      const tokens = correctSlips(tokenise(written, book.lexicon.spellings), book)
      expect(findPhrases(tokens, book).steps).toBeLessThanOrEqual(mostStepsAToken * tokens.length)
    }), parameters(150))
  })

  it('takes twice the comparisons for a word of the lexicon said twice as often, and no more', () => {
    const dearer = words.filter((it) => stepsFor(`${it} `.repeat(80)) > 2 * stepsFor(`${it} `.repeat(40)) + mostStepsAToken)
    expect(dearer).toEqual([])
  })
})
