import { describe, expect, it } from 'vitest'
import { countSlips } from '#src/conversation/reading/correct-slips.ts'
import { phraseBookOf } from '#src/conversation/reading/phrase-book.ts'
import { english, perhaps, surely } from './reading-of.ts'

const corrected: readonly (readonly [string, string])[] = [
  ['my hand is numbb', 'arm-numbness'], ['numness in my hand', 'arm-numbness'], ['numbnes in my arm', 'arm-numbness'],
  ['tingeling in my arm', 'arm-numbness'], ['tinglnig in the hand', 'arm-numbness'],
  ['I feel dizzzy', 'light-headed'], ['dizy', 'light-headed'],
  ['dizzyness', 'light-headed'], ['diziness', 'light-headed'], ['nautious', 'light-headed'],
  ['I colapsed', 'drop-attack'], ['I faintd', 'drop-attack'], ['slured speech', 'speech-or-swallowing'],
  ['cant swalow', 'speech-or-swallowing'], ['duoble vision', 'vision-loss-or-double'],
  ['weaknes in my leg', 'sudden-weakness'], ['chest pian', 'chest-pain-or-breathless'],
  ['cant breath', 'chest-pain-or-breathless'], ['cant breathe', 'chest-pain-or-breathless'],
  ['elecric shock down my spine', 'electric-shock'], ['lost controll of my bladdr', 'saddle-bladder-bowel'],
  ['suicidl', 'self-harm'],
  ['sooo dizzy', 'light-headed'],
]

/** Real words, each one slip from a symptom or a command. */
const realWords: readonly string[] = ['done', 'paint', 'never', 'lever', 'right', 'tight', 'light', 'cheat', 'crush',
  'single', 'mingling', 'there', 'dropping', 'joking', 'painted', 'fizzy', 'saint', 'shallow', 'ladder', 'towel',
  'spanning', 'tables', 'brightness', 'following', 'business', 'never again', 'trapped', 'stoke', 'week', 'dumb bell',
  'thumb']

describe('typing slips', () => {
  it.each(corrected)('"%s" is understood as %s', (text, sign) => {
    expect(surely(text)).toEqual([sign])
  })

  it.each(realWords.map((word) => [word]))('"%s" is left as it is', (word) => {
    expect([surely(word), perhaps(word)]).toEqual([[], []])
  })

  it.each([
    ['numb', 'numb', 0], ['dizzy', 'dizy', 1], ['dizzy', 'dizyz', 1], ['tingling', 'tingeling', 1],
    ['numbness', 'nubnes', 2], ['', 'abc', 3],
  ] as const)('%s and %s are %i apart', (a, b, slips) => {
    expect([countSlips(a, b), countSlips(b, a)]).toEqual([slips, slips])
  })

  it('are corrected in no word below five letters', () => {
    expect(phraseBookOf(english).correctable.filter((word) => word.length < 5)).toEqual([])
  })

  it('have no everyday word that is a word of the lexicon as well', () => {
    const { vocabulary } = phraseBookOf(english)
    expect([...english.everyday].filter((word) => vocabulary.has(word))).toEqual([])
  })
})
