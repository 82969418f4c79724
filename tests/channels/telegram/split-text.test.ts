import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { splitText } from '#src/channels/telegram/split-text.ts'

const graphemes = new Intl.Segmenter('en', { granularity: 'grapheme' })
const countGraphemes = (text: string) => [...graphemes.segment(text)].length

describe('splitting a text', () => {
  it.each([
    ['a paragraph', 'one two\n\nthree four', 12, ['one two\n\n', 'three four']],
    ['a line', 'one two\nthree four', 12, ['one two\n', 'three four']],
    ['a word', 'one two three four', 12, ['one two ', 'three four']],
    ['a paragraph before a later line', 'one two\n\nsix\nseven', 14, ['one two\n\n', 'six\nseven']],
    ['a word where the paragraph would leave a part nearly empty', 'a\n\none two three', 12, ['a\n\none two ', 'three']],
    ['nothing where it fits', 'one two\n\nthree', 14, ['one two\n\nthree']],
    ['the limit where there is no break', 'abcdefghij', 4, ['abcd', 'efgh', 'ij']],
  ])('cuts at %s', (_, text, limit, parts) => {
    expect(splitText(text, limit)).toEqual(parts)
  })

  // Clusters: Unicode Standard Annex 29, emoji sequences from memory
  it.each(['👩🏽‍⚕️', '🇳🇱', 'e\u0301', 'क्षि', '𝒳'])('keeps %s whole', (cluster) => {
    const text = `${cluster.repeat(40)}`
    const parts = splitText(text, cluster.length * 3 + 1)
    expect(parts.join('')).toBe(text)
    expect(new Set(parts.slice(0, -1))).toEqual(new Set([cluster.repeat(3)]))
  })

  it('cuts a cluster longer than a message between code points', () => {
    const text = `a${'\u{1D165}'.repeat(10)}`
    const parts = splitText(text, 8)
    expect(parts.join('')).toBe(text)
    expect(parts.map((part) => part.length)).toEqual([7, 8, 6])
  })

  it('drops blank parts, which the server would refuse, and nothing else', () => {
    const parts = splitText(`one${' '.repeat(20)}two`, 8)
    expect(parts.map((part) => part.trim())).toEqual(['one', 'two'])
  })

  it('replaces one half of a surrogate pair, for which the server would refuse the whole', () => {
    expect(splitText('a\uD83Db')).toEqual(['a\uFFFDb'])
  })

  it('loses nothing, keeps the limit and cuts no cluster, whatever the text', () => {
    const letters = ['a', 'word', '—', '👩🏽‍⚕️', '🇳🇱', 'e\u0301', '𝒳']
    const bit = fc.constantFrom(...letters, ' ', '\n', '\n\n', '\r\n', ' \u0301')
    fc.assert(
      fc.property(fc.array(bit, { maxLength: 80 }), fc.integer({ min: 12, max: 40 }), (bits, limit) => {
        const text = `x${bits.join('')}x`
        const parts = splitText(text, limit)
        const isBlankLost = parts.join('').replace(/\s/g, '') !== text.replace(/\s/g, '')
        expect(isBlankLost).toBe(false)
        expect(parts.filter((part) => part.length > limit || part.trim() === '')).toEqual([])
        if (parts.join('') === text) {
          expect(parts.reduce((sum, part) => sum + countGraphemes(part), 0)).toBe(countGraphemes(text))
        }
      }),
      { numRuns: 2_000 },
    )
  })
})
