import { describe, expect, it } from 'vitest'
import { phraseBookOf } from '#src/conversation/reading/phrase-book.ts'
import { readerOf } from '../reading-of.ts'

const { lexicon, surely, perhaps } = readerOf('es')

const corrected: readonly (readonly [string, string])[] = [
  ['hormigeo en la mano', 'arm-numbness'], ['ormigueo en los dedos', 'arm-numbness'], ['hormiguoe en la mano', 'arm-numbness'],
  ['cosquileo en la mano', 'arm-numbness'], ['tengo la mano adormesida', 'arm-numbness'], ['brazo entumesido', 'arm-numbness'],
  ['se me duerne la mano', 'arm-numbness'], ['se me duermee el braso', 'arm-numbness'], ['estoy mareadoo', 'light-headed'],
  ['tengo mareoo', 'light-headed'], ['nausias', 'light-headed'], ['me desmalle', 'drop-attack'], ['veo boroso', 'vision-loss-or-double'],
  ['vision dobel', 'vision-loss-or-double'], ['no puedo ablar', 'speech-or-swallowing'], ['no puedo tragarr', 'speech-or-swallowing'],
  ['me duele el pexo', 'chest-pain-or-breathless'], ['no puedo repirar', 'chest-pain-or-breathless'], ['tengo fievre', 'fever'],
  ['pierdo el equilivrio', 'unsteady-walking'], ['debilidadd en el brazo', 'sudden-weakness'], ['parpaado caido', 'face-droop'],
]

/** Real words, each one slip from a symptom or a command. */
const realWords: readonly string[] = [
  'mareas', 'fiesta', 'cuarto', 'cuadro', 'siesta', 'siente', 'sientes', 'quise', 'vuelvo', 'nuevo', 'resbalo', 'pecas', 'pedal', 'dedal', 'cabeza',
  'brazos', 'cuello', 'deber', 'vivienda', 'doblez', 'tratar', 'hablando', 'caminata', 'lista', 'lento', 'parado', 'basto', 'alta', 'nadar',
]

describe('typing slips in Spanish', () => {
  it.each(corrected)('"%s" is understood as %s', (text, sign) => {
    expect(surely(text)).toEqual([sign])
  })

  it.each(realWords.map((word) => [word]))('"%s" is left as it is', (word) => {
    expect([surely(word), perhaps(word)]).toEqual([[], []])
  })

  it('are corrected in no word below five letters', () => {
    expect(phraseBookOf(lexicon).correctable.filter((word) => word.length < 5)).toEqual([])
  })

  it('have no everyday word that is a word of the lexicon as well', () => {
    const { vocabulary } = phraseBookOf(lexicon)
    expect([...lexicon.everyday].filter((word) => vocabulary.has(word))).toEqual([])
  })
})
