import { readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { languages } from '#tests/conversation/reading/labelled/messages.ts'
import { fit, scoreOf } from './fit.ts'
import { learnLanguage, mostAskedInVain } from './learn-language.ts'

describe('learning', () => {
  const lesson = (text: string, isSuspicious: boolean) => ({ clues: text.split(' '), isSuspicious })
  const lessons = [
    lesson('my mouth hangs', true), lesson('the mug fell', true), lesson('mouth hangs', true),
    lesson('the set went well', false), lesson('my dog is well', false), lesson('well done', false),
  ]

  it('finds what is said when something is wrong', () => {
    const weights = fit(lessons)
    expect(scoreOf(['mouth', 'hangs'], weights)).toBeGreaterThan(1)
    expect(scoreOf(['set', 'went', 'well'], weights)).toBeLessThan(-1)
  })

  it('gives the same from the same', () => {
    expect(fit(lessons)).toEqual(fit(lessons))
  })

  it('tells nothing of a word that it has not met', () => {
    const weights = fit(lessons)
    expect(scoreOf(['harbour'], weights)).toBe(weights.bias)
  })
})

describe.each(languages)('the weights of suspicion (%s)', (language) => {
  const learnt = learnLanguage(language)

  it('are those that the labelled messages give: run npm run learn', () => {
    expect(readFileSync(new URL(`../../content/suspicion/${language}.json`, import.meta.url), 'utf8') === learnt.file).toBe(true)
  })

  it('suspect three of four messages with a sign that they were not learnt from, and few others', () => {
    expect(learnt.suspected).toBeGreaterThan(0.75)
    expect(learnt.askedInVain).toBeLessThanOrEqual(mostAskedInVain + 0.005)
  })
})
