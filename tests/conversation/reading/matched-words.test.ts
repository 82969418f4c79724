import { describe, expect, it } from 'vitest'
import fc from 'fast-check'
import { readFileSync } from 'node:fs'
import { readLexicon } from '#src/content/lexicon.ts'
import { longestMatch } from '#src/conversation/reading/matched-words.ts'
import { normaliseText, traceOrigins } from '#src/conversation/reading/normalise-text.ts'
import { readMessage } from '#src/conversation/reading/read-message.ts'
import { tokenise } from '#src/conversation/reading/token.ts'
import { parameters } from '#tests/properties/runs.ts'

const read = (name: string) => readLexicon(readFileSync(`content/lexicon/${name}.yaml`, 'utf8'), name)
const [english, spanish] = [read('en'), read('es')]
const matchedIn = (text: string, lexicon = english) => readMessage(text, 'nothing', lexicon).matched.map(({ sign, words }) => [String(sign), words])

describe('the words that made a sign', () => {
  it.each([
    ['Set was fine. My left HAND has gone numb, sorry', [['arm-numbness', 'HAND has gone numb']]],
    // Invisible marks, wide letters and a letter with its accent apart change how long a text is.
    ['½ ok — “my \u200Bha\u200Dnd is n\u200Bumb”', [['arm-numbness', 'ha\u200Dnd is n\u200Bumb']]],
    ['ｈａｎｄ is ｎｕｍｂ', [['arm-numbness', 'ｈａｎｄ is ｎｕｍｂ']]],
    ['e\u0301 e\u0301 ﬃ my arm is nu\u0301mb', [['arm-numbness', 'arm is nu\u0301mb']]],
    ['is it normal to be dizzy?', [['light-headed', 'dizzy']]],
    ['i am dizy', [['light-headed', 'dizy']]],
    // A sign that two symptoms are together shows both.
    ['I have a fever and a stiff neck', [['fever-stiff-neck', 'fever and a stiff neck']]],
    ['no numbness, no dizziness', []],
    ['3, all clean', []],
  ])('of "%s" are cut as they were typed', (text, expected) => {
    expect(matchedIn(text)).toEqual(expected)
  })

  it('are cut in another language too', () => {
    expect(matchedIn('Se me durmió la MANO', spanish).map(([sign]) => sign)).toEqual(['arm-numbness'])
    expect('Se me durmió la MANO').toContain(matchedIn('Se me durmió la MANO', spanish)[0]?.[1])
  })

  it('are shown in pieces where they lie far apart, and never longer than the limit', () => {
    const far = `it was sudden ${'and so on '.repeat(12)}my arm is weak and it has come on slowly over weeks`
    const matched = matchedIn(far)
    expect(matched).toContainEqual(['sudden-weakness', expect.stringMatching(/^sudden … arm is weak/)])
    expect(matched.filter(([, words = '']) => words.length > longestMatch || words === '')).toEqual([])
  })

  it('stand once for each sign that is raised or asked about, and in their order', () => {
    const bits = fc.constantFrom('my arm is numb', 'dizzy', 'fever', 'stiff neck', 'face', 'sudden', 'weak', '.', 'but', 'no', 'bad headache', '\u200B', '🙂')
    fc.assert(fc.property(fc.array(bits, { maxLength: 40 }), (parts) => {
      const text = parts.join(' ')
      const { matched, redFlags, unsureFlags } = readMessage(text, 'pain', english)
      expect(matched.map(({ sign }) => sign)).toEqual([...redFlags, ...unsureFlags].map(({ sign }) => sign))
      for (const { words } of matched) {
        expect(words.length).toBeGreaterThan(0)
        expect(words.length).toBeLessThanOrEqual(longestMatch)
        for (const piece of words.replace(/…$/, '').split(' … ')) expect(text).toContain(piece)
      }
    }), parameters(200))
  })
})

describe('where a token stood', () => {
  it('is found again through every rewriting: cut out there, it is the same token', () => {
    const marks = fc.constantFrom('\u200B', '\u0301', '\u0327', '½', '—', '\r\n', '<b>', 'ﬁ', '가', '\u1100\u1161', 'ｶ', '\uFF9E', '٣', '´', '👍🏽', '\\', 'İ', 'ß', 'Σ', ' ')
    const piece = fc.oneof(marks, fc.constantFrom('numb', 'ARM', 'é', '12', 'x'), fc.string({ unit: 'binary', maxLength: 4 }))
    fc.assert(fc.property(fc.array(piece, { maxLength: 30 }), (pieces) => {
      const text = pieces.join('')
      const originOf = traceOrigins(text)
      const plain = normaliseText(text)
      expect(originOf(0, plain.length).end).toBeLessThanOrEqual(text.length)
      let last = 0
      for (const token of tokenise(text, new Map())) {
        const { start, end } = originOf(token.start, token.end)
        expect(start).toBeGreaterThanOrEqual(last)
        expect(end).toBeGreaterThan(start)
        // Several tokens may come of one letter ("㎏", "…"); whole, they hold the one that was looked for.
        expect(normaliseText(text.slice(start, end))).toContain(plain.slice(token.start, token.end))
        last = start
      }
    }), parameters(500))
  })

  it('is told for every unit that a letter becomes', () => {
    const wrong: string[] = []
    for (let code = 1; code <= 0xffff; code += 1) {
      if (code >= 0xd800 && code <= 0xdfff) continue
      const text = `a${String.fromCodePoint(code)}z`
      const length = normaliseText(text).length
      const { start, end } = traceOrigins(text)(length - 1, length)
      if (text.slice(start, end) !== 'z') wrong.push(code.toString(16))
    }
    expect(wrong).toEqual([])
  })
})
