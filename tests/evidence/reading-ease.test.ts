// Reading ease of Spanish. Perspicuity: Szigriszt-Pazos 1993 [found] https://legible.es/blog/perspicuidad-szigriszt-pazos/
// Ease: Fernández Huerta 1959 [found] https://legible.es/blog/lecturabilidad-fernandez-huerta/, which prints the second term by
// the words of a sentence; https://esdocs.com/doc/1358536/ prints it by the sentences of a hundred words, as most do, and that
// is taken to be the slip (there, by reference: G. Law, in the year 2011). No source printed a text together with its counts.
// Scale: Barrio-Cantalejo 2008 [found] http://scielo.isciii.es/scielo.php?pid=S1137-66272008000300004&script=sci_arttext, its
// limits [found-2nd] https://cnbguatemala.org/index.php?oldid=50818&title=Legible%2FEscala_Inflesz
import { describe, expect, it } from 'vitest'
import { countText, perspicuityOf, spanishEaseOf } from '#tests/support/reading-grade.ts'
import { measureFor } from '#tests/support/reading-measures.ts'
import { countSpanishSyllables } from '#tests/support/spanish-syllables.ts'

const halfHundredth = 0.005 + 1e-9

describe('the reading ease of Spanish', () => {
  // [calc] from the published formulas, by hand.
  it.each([
    [100, 8, 200, 69.74, 74.09],
    [100, 5, 190, 68.47, 72.44],
    [12, 1, 35, 13.13, 19.6],
    [16, 4, 32, 78.24, 82.76],
  ])('of %i words, %i sentences and %i syllables is the published one', (words, sentences, syllables, perspicuity, ease) => {
    const counts = { words, sentences, syllables }
    expect(Math.abs(perspicuityOf(counts) - perspicuity)).toBeLessThanOrEqual(halfHundredth)
    expect(Math.abs(spanishEaseOf(counts) - ease)).toBeLessThanOrEqual(halfHundredth)
  })

  it('falls with longer sentences in both formulas, as it would not in the slipped print of the second', () => {
    const [short, long] = [{ words: 100, sentences: 10, syllables: 200 }, { words: 100, sentences: 4, syllables: 200 }]
    expect(perspicuityOf(long)).toBeLessThan(perspicuityOf(short))
    expect(spanishEaseOf(long)).toBeLessThan(spanishEaseOf(short))
  })

  // [calc] words, sentences and syllables counted by hand: 15, 4, 32 and 15, 1, 44.
  it.each([
    ['Siéntate recto. Mira al frente. Empuja la cabeza suave contra tu mano. Aguanta cinco segundos.', 70.18],
    ['Interrumpa inmediatamente la contracción isométrica si se desarrollan síntomas neurológicos en cualquiera de las extremidades.', 9.09],
  ])('of "%s" is the one worked out by hand', (text, perspicuity) => {
    expect(Math.abs(perspicuityOf(countText(text, countSpanishSyllables)) - perspicuity)).toBeLessThanOrEqual(halfHundredth)
  })
})

describe('the syllables of a Spanish word', () => {
  // Divisions [found] https://espalingua.ru/acentuacion-de-diptongos-triptongos-e-hiatos
  it.each([
    'ciu-da-de-la', 'cui-da-do', 'pi-tui-ta-ria', 'ai-ro-so', 'rau-do', 'rei-na', 'a-ce-quia', 'cua-der-no',
    'fuen-te', 'a-lí-cuo-ta', 'ahu-yen-to', 'prehis-tó-ri-co', 'cohi-bi-do', 'ma-rí-a', 'bú-ho', 'ba-úl', 're-ú-ne',
    'pa-ra-guay', 'a-nun-ciéis',
  ])('are as a course of spelling divides it: %s', (divided) => {
    expect(countSpanishSyllables(divided.replaceAll('-', ''))).toBe(divided.split('-').length)
  })

  // Divisions [found] https://mindomo.com/it/mind-maps/diptongos-triptongos-y-hiato-941ca66c40b44d28aa20897d1e48d2b2 and
  // https://ru.scribd.com/document/425390855/DIPTONGOS
  it.each([
    'rui-do', 'triun-fo', 'co-me-dia', 'tie-rra', 'pio-jo', 'ai-re', 'cau-sa', 'pei-ne', 'de-he-sa', 're-hén',
    'al-de-a', 'le-ón', 'ba-hí-a', 'o-í-do', 'fan-ta-sí-a',
  ])('are as two sheets for pupils divide it: %s', (divided) => {
    expect(countSpanishSyllables(divided.replaceAll('-', ''))).toBe(divided.split('-').length)
  })

  // As any dictionary divides it [memory:high].
  it.each([
    'cue-llo', 'hom-bro', 'men-tón', 'ca-be-za', 'tam-bién', 'quie-to', 'gue-rra', 'pin-güi-no', 'ci-güe-ña',
    'an-ti-guo', 'a-ve-ri-güéis', 'qui-zá', 'muy', 'hoy', 'y', 'ya', 're-yes', 'a-yu-da', 'dí-a', 'rí-o', 'pa-ís',
    'le-er', 'ca-er', 'a-é-re-o', 'hé-ro-e', 'lí-ne-a', 'al-co-hol', 'a-ho-ra', 'ca-ca-hue-te', 'chi-i-ta',
    'cuí-da-te', 'le-í-a', 'pa-ra-noi-a', 'buey', 'es-tu-diáis', 'ex-ten-sión', 'in-cli-na-ción', 'te-ra-peu-ta',
    'huér-fa-no', 'se-gui-da', 'lin-güís-ti-co', 'o-ír', 'ac-tú-a', 'prohi-bir', 'e-mer-gen-cia', 'fi-sio-te-ra-pia',
  ])('are as a dictionary divides it: %s', (divided) => {
    expect(countSpanishSyllables(divided.replaceAll('-', ''))).toBe(divided.split('-').length)
  })

  it('are counted for digits and units as well, and none for nothing', () => {
    expect(['10', '7', 'kg', ''].map(countSpanishSyllables)).toEqual([4, 2, 1, 0])
  })
})

describe('the ease that patients are owed', () => {
  it('begins at 65, where the scale says "bastante fácil"', () => {
    const { threshold, margin } = measureFor('es')
    expect(threshold).toBe(65)
    expect([64.99, 65, 80].map((score) => margin(score) >= 0)).toEqual([false, true, true])
  })
})
