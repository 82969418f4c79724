import { describe, expect, it } from 'vitest'
import { createSieve } from '#src/conversation/reading/sieve.ts'

const [asleep, weakOrLimp, both, nothing] = [0, 1, 2, 3]
const sieve = createSieve([
  { words: [['asleep']], longest: 4 },
  { words: [['weak', 'limp']], longest: 3 },
  { words: [['asleep'], ['weak', 'limp']], longest: 6 },
  { words: [], longest: 2 },
])

/** The phrases that may begin at each word. */
function begins(text: string): readonly (readonly number[])[] {
  const words = text.split(' ')
  const sifting = sieve.over(words)
  return words.toReversed().map((_word, back) => {
    sifting.moveTo(words.length - 1 - back)
    return [asleep, weakOrLimp, both, nothing].filter((phrase) => sifting.mayBegin(phrase))
  }).toReversed()
}

describe('a phrase', () => {
  it('may begin where all that it needs follows within its reach', () => {
    expect(begins('arm went all limp asleep')).toEqual([[both, nothing], [asleep, weakOrLimp, both, nothing], [asleep, weakOrLimp, both, nothing],
      [asleep, weakOrLimp, both, nothing], [asleep, nothing]])
  })

  it('may not begin where a word stands too far on, or only before', () => {
    expect(begins('arm has in truth gone asleep').map((phrases) => phrases.includes(asleep))).toEqual([false, false, true, true, true, true])
    expect(begins('asleep my arm')).toEqual([[asleep, nothing], [nothing], [nothing]])
  })

  it('is not taken for one of the text before', () => {
    begins('weak asleep')
    expect(begins('my arm')).toEqual([[nothing], [nothing]])
  })
})
