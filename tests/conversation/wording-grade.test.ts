// Texts for clients: grade 6 or below (American Medical Association; 6 to 8: National Institutes of Health) [found]
// https://readabilitycheck.com/patient-information-readability/
import { readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { parse } from 'yaml'
import { countText, gradeOf } from '#tests/support/reading-grade.ts'

const folder = 'content/wording/en'
/** What a client reads; the other files are read by therapists only. */
const clientFiles = ['called', 'common', 'consent', 'decisions', 'explain', 'flag', 'morning', 'reasons', 'session', 'symptom', 'weekly']
const targetGrade = 6
/** Below ten words one long word decides, and the formula says nothing. */
const fewestWords = 10

function textsIn(value: unknown, key: string): readonly (readonly [string, string])[] {
  if (typeof value === 'string') return [[key, value]]
  return Object.entries(value as object).flatMap(([name, inner]) => textsIn(inner, `${key}.${name}`))
}

/** A value stands for a short word; choices made by the message syntax are left out. */
function asRead(text: string): string {
  return text.replaceAll(/\{[^{}]*(\{[^{}]*\}[^{}]*)*\}/g, 'five').replaceAll('\n', ' ')
}

const sentences = clientFiles
  .flatMap((file) => textsIn(parse(readFileSync(`${folder}/${file}.yaml`, 'utf8')), file))
  .filter(([key, text]) => !key.includes('.therapist.') && !key.includes('.say-') && countText(asRead(text)).words >= fewestWords)

describe('what a client reads in a conversation', () => {
  it('is there to be measured', () => {
    expect(sentences.length).toBeGreaterThan(60)
  })

  it.each(sentences)('is of grade 6 or below: %s', (_key, text) => {
    expect(gradeOf(countText(asRead(text)))).toBeLessThanOrEqual(targetGrade)
  })
})
