import { countText, gradeOf, perspicuityOf, type TextCounts } from '#tests/support/reading-grade.ts'
import { countSpanishSyllables } from '#tests/support/spanish-syllables.ts'

/** How easily a language's texts have to read. A further language needs a row of its own. */
export interface ReadingMeasure {
  readonly language: string
  readonly formula: string
  /** A text that reads just easily enough. */
  readonly threshold: number
  readonly source: string
  /** What a placeholder is read as: a short word of the language. */
  readonly filler: string
  count(text: string): TextCounts
  score(counts: TextCounts): number
  /** How far a score lies on the easy side of the threshold; negative is too hard. */
  margin(score: number): number
}

const grade = 6
const fairlyEasy = 65

export const readingMeasures: readonly ReadingMeasure[] = [
  {
    language: 'en',
    formula: 'Flesch–Kincaid grade level',
    threshold: grade,
    // [found] https://readabilitycheck.com/patient-information-readability/
    source: 'grade 6 or below: American Medical Association; 6 to 8: National Institutes of Health',
    filler: 'five',
    count: (text) => countText(text),
    score: gradeOf,
    margin: (score) => grade - score,
  },
  {
    language: 'es',
    formula: 'Szigriszt-Pazos 1993, read on the INFLESZ scale',
    threshold: fairlyEasy,
    // Scale [found-2nd] https://cnbguatemala.org/index.php?oldid=50818&title=Legible%2FEscala_Inflesz, validated in
    // [found] http://scielo.isciii.es/scielo.php?pid=S1137-66272008000300004&script=sci_arttext
    source: 'from 65 on "bastante fácil" (Barrio-Cantalejo 2008); that patients are owed that step is our choice',
    filler: 'cinco',
    count: (text) => countText(text, countSpanishSyllables),
    score: perspicuityOf,
    margin: (score) => score - fairlyEasy,
  },
]

export function measureFor(language: string): ReadingMeasure {
  const measure = readingMeasures.find((one) => one.language === language)
  if (measure === undefined) throw new Error(`No reading measure for "${language}": add a row to readingMeasures.`)
  return measure
}
