import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { noSuspicion, type Suspicion } from '#src/content/suspicion.ts'
import { readMessage } from '#src/conversation/reading/read-message.ts'
import { cluesAt, suspicionIn } from '#src/conversation/reading/suspicion.ts'
import { tokenise } from '#src/conversation/reading/token.ts'
import { english } from './reading-of.ts'

const tokens = (text: string) => tokenise(text, english.spellings)
const weights = new Map([['mirror', 1], ['lopsided', 1.5], ['lopsi~', 0.5], ['looks lopsided', 1], ['the', -0.2], ['#', -1], ['dog', -2]])
const suspicion: Suspicion = { threshold: 2, bias: -0.5, weights }
const wary = { ...english, suspicion }
const ask = [{ sign: 'something-else', level: 'urgent' }]

describe('the clues of a word', () => {
  it('are itself, its beginning, and its pairs with the two that follow; marks part, numbers are alike', () => {
    const text = tokens('mirror looks odd. 7 mirrors')
    expect(text.map((_token, index) => cluesAt(text, index))).toEqual([
      ['mirror', 'mirro~', 'mirror looks', 'mirror _ odd'],
      ['looks', 'look~', 'looks odd'],
      ['odd'],
      [],
      ['#', '# mirrors'],
      ['mirrors', 'mirro~'],
    ])
  })
})

describe('the suspicion of a text', () => {
  it('is what its clues weigh together, each once, and points to the words that weigh most', () => {
    const once = suspicionIn(tokens('in the mirror it looks lopsided'), suspicion)
    expect(once).toEqual({ score: -0.5 - 0.2 + 1 + 1 + 1.5 + 0.5, start: 2, end: 6 })
    expect(suspicionIn(tokens('in the mirror it looks lopsided. In the mirror it looks lopsided'), suspicion).score).toBe(once.score)
  })

  it('of nothing known is the bias, of an empty text too', () => {
    expect(suspicionIn(tokens('harbour lights'), suspicion)).toMatchObject({ score: -0.5, start: 0, end: 0 })
    expect(suspicionIn([], suspicion).score).toBe(-0.5)
  })
})

describe('a message that no phrase takes for a sign', () => {
  it('makes the bot ask about everything when it sounds like one, and is no value', () => {
    const reading = readMessage('2, and in the mirror it looks lopsided', 'pain', wary)
    expect(reading).toMatchObject({ value: null, redFlags: [], unsureFlags: ask, understood: true })
    expect(reading.matched).toEqual([{ sign: 'something-else', words: 'mirror it looks lopsided' }])
  })

  it.each(['2', '2, the dog is lopsided', 'looks fine in the mirror'])('is left alone when it does not: %s', (text) => {
    expect(readMessage(text, 'pain', wary).unsureFlags).toEqual([])
  })

  it('is left alone where nothing was learnt', () => {
    expect(readMessage('in the mirror it looks lopsided', 'nothing', { ...english, suspicion: noSuspicion }).unsureFlags).toEqual([])
  })
})

describe('suspicion', () => {
  it('never alarms, and never silences what a phrase tells', () => {
    const words = fc.constantFrom('mirror', 'lopsided', 'looks', 'the', 'dog', 'my', 'face', 'is', 'numb', 'not', '3', '.')
    fc.assert(fc.property(fc.array(words, { maxLength: 12 }), (said) => {
      const text = said.join(' ')
      const [plain, weighed] = [readMessage(text, 'pain', english), readMessage(text, 'pain', wary)]
      expect(weighed.redFlags).toEqual(plain.redFlags)
      if (plain.unsureFlags.length > 0) expect(weighed.unsureFlags).toEqual(plain.unsureFlags)
    }), { seed: 7, numRuns: 500 })
  })
})
