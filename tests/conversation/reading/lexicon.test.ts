import { readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { parse } from 'yaml'
import { parsePhrase } from '#src/content/lexicon-phrase.ts'
import { lexiconLists } from '#src/content/lexicon-lists.ts'
import { LexiconError, readLexicon, type LexiconProblem } from '#src/content/lexicon.ts'
import { cueLists, placeLists, signRules, symptomLists, watchLists } from '#src/conversation/reading/sign-rules.ts'
import { signLevels } from '#src/conversation/reading/signs.ts'
import { surely, wordedSigns } from './reading-of.ts'

const yaml = readFileSync(new URL('../../../content/lexicon/en.yaml', import.meta.url), 'utf8')

function problemsOf(text: string): readonly LexiconProblem[] {
  try {
    readLexicon(text, 'xx.yaml')
  } catch (error) {
    if (error instanceof LexiconError) return error.problems
    throw error
  }
  return []
}
const lineOf = (start: string): number => yaml.split('\n').findIndex((line) => line.startsWith(start)) + 1

describe('a lexicon', () => {
  it('has no problem in English', () => {
    expect(problemsOf(yaml)).toEqual([])
  })

  it('names file, line and mend of a missing list', () => {
    const [problem, ...rest] = problemsOf(yaml.replace('\n  stroke:\n', '\n  strokes:\n'))
    expect(problem).toMatchObject({ file: 'xx.yaml', path: 'symptoms.stroke', line: lineOf('symptoms:') + 1 })
    expect(rest.length).toBeGreaterThan(0)
  })

  it('names a phrase that is none, and its line', () => {
    const problems = problemsOf(yaml.replace('  heavy: [heavy,', '  heavy: ["heavy (or like", heavy,'))
    expect(problems).toEqual([{ file: 'xx.yaml', line: lineOf('  heavy:'), path: 'symptoms.heavy.0', message: '"heavy (or like" is no phrase',
      mend: 'Use words, a|b, (optional), {list}, # and .. between words' }])
  })

  it('names an entry that is not of words alone', () => {
    expect(problemsOf(yaml.replace('  and-word: [and]', '  and-word: ["and {arm}"]')).map(({ path, message }) => [path, message]))
      .toEqual([['entries.and-word.0', '"and {arm}" is no phrase of words alone']])
  })

  it('names a list that is not there', () => {
    expect(problemsOf(yaml.replace('  heavy: [heavy,', '  heavy: ["{elbow-joint}",')).map(({ path, message }) => [path, message]))
      .toEqual([['symptoms.heavy', 'there is no list {elbow-joint}']])
  })

  it('names lists that refer to each other in a circle', () => {
    const circle = yaml.replace('  limb: [', '  limb: ["{any-place}", ').replace('  any-place: [', '  any-place: ["{limb}", ')
    expect(problemsOf(circle).map(({ path }) => path))
      .toEqual(['blocks.limb', 'blocks.any-place'])
  })

  it('is refused with the line where the YAML breaks', () => {
    expect(problemsOf('language: en\nnumbers: [')[0]).toMatchObject({ file: 'xx.yaml', line: 2 })
  })

  it('of which the code knows every place, symptom, watched word and cue', () => {
    expect([placeLists, symptomLists, watchLists, cueLists].map((names) => names.toSorted()))
      .toEqual([lexiconLists.places, lexiconLists.symptoms, lexiconLists.watched, lexiconLists.cues].map((names) => names.toSorted()))
  })

  it('speaks of the signs of the triage content, at its levels', () => {
    const file = new URL('../../../content/triage.yaml', import.meta.url)
    const { signs } = parse(readFileSync(file, 'utf8')) as { signs: { id: string; level: string }[] }
    const levels = Object.fromEntries(signs.map(({ id, level }) => [id, level]))
    // Pain of 8 and more is a number and never a phrase.
    expect({ ...signLevels, 'severe-pain-now': 'urgent' }).toEqual(levels)
  })

  it('leads to every sign that has words, by a symptom or by two of them', () => {
    const certain = Object.values(signRules).flat().filter((rule) => rule.isPossible !== true)
    const reached = new Set(certain.map(({ sign }) => sign))
    expect(wordedSigns.filter((sign) => !reached.has(sign))).toEqual(['fever-stiff-neck', 'two-illness-signs'])
    expect([surely('fever and stiff neck'), surely('fever and weight loss')]).toEqual([['fever-stiff-neck'], ['two-illness-signs']])
  })

  it.each([['', null], ['..', null], ['numb ..', null], ['(my)', null], ['a (b', null], ['{Arm}', null], ['a||b', null]])('"%s" is no phrase',
    (text, phrase) => {
    expect(parsePhrase(text)).toBe(phrase)
  })

  it('has phrases of words, choices, options, lists, numbers and gaps', () => {
    expect(parsePhrase("can't|cannot .. (my) {arm} # (#)")).toEqual([
      { kind: 'word', anyOf: ["can't", 'cannot'], isOptional: false }, { kind: 'gap' },
      { kind: 'word', anyOf: ['my'], isOptional: true },
      { kind: 'list', list: 'arm', isOptional: false }, { kind: 'number', isOptional: false },
      { kind: 'number', isOptional: true },
    ])
  })
})
