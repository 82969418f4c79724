// Texts for clients read easily in every language; tests/support/reading-measures.ts has formula, threshold and source.
import { readdirSync, readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { parse } from 'yaml'
import { measureFor, type ReadingMeasure } from '#tests/support/reading-measures.ts'

const folder = 'content/wording'
/**
 * What therapists alone read, what strangers do (`clinic`), and names on buttons. Every other file, a new one too, speaks to a
 * client.
 */
const othersFiles = [
  'acts', 'alert', 'answering', 'clearing', 'clinic', 'conditions', 'desk', 'disability', 'duty', 'enrolment', 'loads', 'look', 'measuring',
  'outcomes', 'picture', 'placing', 'restrictions', 'settling-in', 'signs', 'training',
]
/** In files for both. */
const therapistsTexts = /\.therapist(\.|$)|^amended\.(standing|change|same|held)$|\.say-/
/** Below ten words one long word decides, and no formula says anything. */
const fewestWords = 10

function textsIn(value: unknown, key: string): readonly (readonly [string, string])[] {
  if (typeof value === 'string') return [[key, value]]
  return Object.entries(value as object).flatMap(([name, inner]) => textsIn(inner, `${key}.${name}`))
}

/** A value stands for a short word; choices made by the message syntax are left out. */
function asRead(text: string, { filler }: ReadingMeasure): string {
  return text.replaceAll(/\{[^{}]*(\{[^{}]*\}[^{}]*)*\}/g, filler).replaceAll('\n', ' ')
}

describe.each(readdirSync(folder))('what a client reads in a conversation in "%s"', (language) => {
  const measure = measureFor(language)
  const files = readdirSync(`${folder}/${language}`).map((file) => file.replace('.yaml', ''))
  const sentences = files
    .filter((file) => !othersFiles.includes(file))
    .flatMap((file) => textsIn(parse(readFileSync(`${folder}/${language}/${file}.yaml`, 'utf8')), file))
    // `|` parts what may be typed.
    .filter(([key, text]) => !therapistsTexts.test(key) && !text.includes('|') && measure.count(asRead(text, measure)).words >= fewestWords)

  it('is there to be measured', () => {
    expect(sentences.length).toBeGreaterThan(60)
  })

  it.each(sentences)('is easy enough: %s', (_key, text) => {
    expect(measure.margin(measure.score(measure.count(asRead(text, measure))))).toBeGreaterThanOrEqual(0)
  })
})
