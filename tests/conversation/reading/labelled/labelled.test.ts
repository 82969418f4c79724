// What clients write, labelled blind: whoever wrote them had not seen the lexicon or the reader. The bar is our choice; a sign that is
// missed or a value that is read wrongly can hurt somebody, a question too many only costs time. The half that the reader was
// mended by has to hold the bar. The other half tells how far that carries to words that nobody had in mind: the aim is the same bar,
// it is not met yet, and what was measured may only be bettered.
import { readdirSync, readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { readLexicon } from '#src/content/lexicon.ts'
import { readMessage } from '#src/conversation/reading/read-message.ts'
import { alternatives, halves, hasMessages, levels, messagesOf, type Half } from './messages.ts'
import { printScore } from './print-score.ts'
import { fractionOf, score, type Score } from './score.ts'

const bar = { emergency: 1, urgent: 1, precision: 0.95, values: 0.9, wrongValues: 0.02 } as const
/** Measured on 2026-11-27, the first time that these messages were read after the last change of the lexicons. */
const reachedUnseen: Readonly<Record<string, Record<keyof typeof bar, number>>> = {
  en: { emergency: 0.83, urgent: 0.88, precision: 0.94, values: 0.94, wrongValues: 0.06 },
  es: { emergency: 0.91, urgent: 0.81, precision: 0.89, values: 0.95, wrongValues: 0.06 },
}
const leastMessages = { tuned: 300, 'held-out': 180 } as const
const leastOfEachSign = 2

const lexicons = new URL('../../../../content/lexicon/', import.meta.url)
const languages = readdirSync(lexicons).map((file) => file.replace(/\.yaml$/, ''))

function scoreOf(language: string, half: Half): Score {
  const file = `${language}.yaml`
  const lexicon = readLexicon(readFileSync(new URL(file, lexicons), 'utf8'), `content/lexicon/${file}`)
  return score(messagesOf(language, half), ({ text, awaiting }) => readMessage(text, awaiting, lexicon))
}

describe('the languages', () => {
  it('all have labelled messages', () => {
    expect(languages).toContain('en')
    expect(languages.filter((language) => !halves.every((half) => hasMessages(language, half)))).toEqual([])
  })
})

const files = languages.flatMap((language) => halves.map((half) => ({ name: `${language}.${half}`, language, half })))

describe.each(files)('the labelled messages of $name', ({ language, half }) => {
  const messages = messagesOf(language, half)
  const labels = messages.flatMap(({ signs }) => signs)

  it(`are ${leastMessages[half]} at least, with every emergency and urgent sign ${leastOfEachSign} times at least`, () => {
    expect(messages.length).toBeGreaterThanOrEqual(leastMessages[half])
    const grave = [...levels].filter(([, level]) => level !== 'routine').map(([id]) => id)
    expect(grave.filter((id) => labels.filter((label) => label === id).length < leastOfEachSign)).toEqual([])
  })

  it('name signs of the triage content, alternatives of one level, and no value beside a sign', () => {
    const named = [...labels.flatMap(alternatives), ...messages.flatMap(({ asks }) => asks)]
    expect(named.filter((id) => !levels.has(id))).toEqual([])
    expect(labels.filter((label) => new Set(alternatives(label).map((id) => levels.get(id))).size > 1)).toEqual([])
    expect(messages.filter(({ signs, value }) => signs.length > 0 && value !== undefined)).toEqual([])
  })
})

describe.each(files.filter(({ half }) => half === 'tuned'))('the reader, on $name,', ({ name, language, half }) => {
  const result = scoreOf(language, half)
  console.log(printScore(name, half, result))

  it('misses no emergency and no urgent sign', () => {
    expect(result.missedSigns.map(({ number, expected }) => `#${number} ${expected}`)).toEqual([])
  })

  it('raises no more than one alarm of twenty without cause', () => {
    expect(fractionOf(result.precision)).toBeGreaterThanOrEqual(bar.precision)
  })

  it(`reads ${bar.values * 100} % of the answers as they were meant`, () => {
    expect(fractionOf(result.values)).toBeGreaterThanOrEqual(bar.values)
  })

  it('takes no more than one answer of fifty for another value than was meant', () => {
    expect(1 - fractionOf(result.notWrong)).toBeLessThanOrEqual(bar.wrongValues)
  })
})

describe.each(files.filter(({ half }) => half === 'held-out'))('the reader, on $name, which nobody mended it by,', ({ name, language, half }) => {
  const result = scoreOf(language, half)
  console.log(printScore(name, half, result))

  it('hears and reads no less than was measured', () => {
    const reached = reachedUnseen[language]
    const figures = {
      emergency: fractionOf(result.recall.emergency),
      urgent: fractionOf(result.recall.urgent),
      precision: fractionOf(result.precision),
      values: fractionOf(result.values),
    }
    expect(reached, `no figures for ${language}: write down what is measured`).toBeDefined()
    for (const [name, value] of Object.entries(figures)) expect(value, name).toBeGreaterThanOrEqual(reached?.[name as keyof typeof figures] ?? 1)
    expect(1 - fractionOf(result.notWrong)).toBeLessThanOrEqual(reached?.wrongValues ?? 0)
  })
})

describe('two halves of a language', () => {
  it.each(languages)('share no message (%s)', (language) => {
    const [tuned, heldOut] = halves.map((half) => messagesOf(language, half).map(({ text }) => text.toLowerCase()))
    // "no" and "i want to stop now" are typed by everybody.
    expect(heldOut?.filter((text) => text.split(' ').length > 5 && tuned?.includes(text))).toEqual([])
  })
})
