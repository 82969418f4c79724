// Instructions for patients: grade 6 or below (American Medical Association; 6 to 8: National Institutes of Health) [found]
// https://readabilitycheck.com/patient-information-readability/
// Coefficients [found] https://pmc.ncbi.nlm.nih.gov/articles/PMC9971903/table/tbl2, whose two variable labels are swapped.
import { readdirSync, readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { exerciseSchema } from '#src/content/exercise-schema.ts'
import { readShaped } from '#src/content/read-shaped.ts'
import type { ExerciseWords } from '#src/domain/exercise.ts'
import { shippedContent } from '#tests/support/content-copy.ts'
import { countSyllables, countText, easeOf, gradeOf } from '#tests/support/reading-grade.ts'
import { measureFor } from '#tests/support/reading-measures.ts'

/** The published values are rounded to two places; a little more for the last bit of a binary fraction. */
const halfHundredth = 0.005 + 1e-9

describe('the reading grade', () => {
  // [calc] from the published formula.
  it.each([
    [16, 4, 20, 0.72, 97.03],
    [12, 1, 35, 23.51, -52.09],
    [100, 8, 130, 4.62, 84.17],
    [100, 5, 150, 9.91, 59.64],
  ])('of %i words, %i sentences and %i syllables is the published one', (words, sentences, syllables, grade, ease) => {
    const counts = { words, sentences, syllables }
    expect(Math.abs(gradeOf(counts) - grade)).toBeLessThanOrEqual(halfHundredth)
    expect(Math.abs(easeOf(counts) - ease)).toBeLessThanOrEqual(halfHundredth)
  })

  // Counters disagree, so a text is allowed one grade either way.
  it.each([
    ['Sit tall. Look straight ahead. Push your head gently into your hand. Hold for five seconds.', 0.72],
    ['Discontinue the isometric contraction immediately if neurological symptoms develop in either extremity.', 23.51],
  ])('of "%s" is the published one within a grade', (text, grade) => {
    expect(Math.abs(gradeOf(countText(text)) - grade)).toBeLessThanOrEqual(1)
  })

  // Syllables as any dictionary divides the words [memory:high].
  it.each([
    [1, 'breathe head straight phone pushed rest while place it’s'],
    [2, 'gentle muscles shoulders behind pushes seated being changes towel waited'],
    [3, 'therapist together carrying slippery two-handed'],
    [4, 'dizziness-free operation extremity'],
  ])('counts %i syllables in each of: %s', (syllables, words) => {
    expect(words.split(' ').filter((word) => countSyllables(word) !== syllables)).toEqual([])
  })
})

const exerciseFiles = readdirSync(`${shippedContent}/exercises`)
const targetGrade = 6
/** What our counter may be wrong by; the target is kept with it taken off. */
const counterTolerance = 1

describe('what a client reads of an exercise', () => {
  it.each(exerciseFiles)('is of grade 6 or below as a whole, the counter’s tolerance taken off: %s', (file) => {
    expect(gradeOf(countText(linesOf(file).join(' ')))).toBeLessThanOrEqual(targetGrade - counterTolerance)
  })

  // Below ten words one long word decides, and the formula says nothing.
  it.each(exerciseFiles)('is of grade 6 or below line by line, for lines of ten words and more: %s', (file) => {
    const long = linesOf(file).filter((line) => countText(line).words >= 10)
    expect(long.length).toBeGreaterThan(3)
    expect(long.filter((line) => gradeOf(countText(line)) > targetGrade)).toEqual([])
  })
})

// One short line of commands without a full stop says little in any formula: a whole exercise is judged.
const otherLanguages = readdirSync(`${shippedContent}/wording`).filter((language) => language !== 'en')

describe.each(otherLanguages)('what a client reads of an exercise in "%s"', (language) => {
  const { filler, count, score, margin } = measureFor(language)

  it.each(exerciseFiles)('is easy enough as a whole: %s', (file) => {
    const text = linesOf(file, language).join(' ').replaceAll(/\{[^{}]*(\{[^{}]*\}[^{}]*)*\}/g, filler)
    expect(margin(score(count(text)))).toBeGreaterThanOrEqual(0)
  })
})

function linesOf(file: string, language = 'en'): readonly string[] {
  const reading = readShaped(readFileSync(`${shippedContent}/exercises/${file}`, 'utf8'), file, exerciseSchema)
  const words = reading.kind === 'read' ? reading.value.words.get(language) : undefined
  if (words === undefined) throw new Error(`${file} has no words in "${language}"`)
  return textsOf(words).map((text) => (/[.!?]$/.test(text) ? text : `${text}.`))
}

function textsOf(words: ExerciseWords): readonly string[] {
  const { name, setUp, movement, breathing, goodControl, faults, stopWhen, cue } = words
  return [name, ...setUp, ...movement, breathing, goodControl, ...faults, ...stopWhen, cue]
}
