// What clients write, labelled blind: whoever wrote them had not seen the lexicon or the reader (four a file excepted). The bar is our
// choice; a sign that is missed or a value that is read wrongly can hurt somebody, a question too many only costs time.
import { readdirSync, readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { readLexicon } from '#src/content/lexicon.ts'
import { readMessage } from '#src/conversation/reading/read-message.ts'
import { alternatives, halves, hasMessages, levels, messagesOf, type Half } from './messages.ts'
import { printScore } from './print-score.ts'
import { fractionOf, score, type Score } from './score.ts'

const bar = { precision: 0.95, values: 0.9, wrongValues: 0.02 } as const
const leastMessages = 200
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

  it(`are ${leastMessages} at least, with every emergency and urgent sign ${leastOfEachSign} times at least`, () => {
    expect(messages.length).toBeGreaterThanOrEqual(leastMessages)
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

describe.each(files)('the reader, on $name,', ({ name, language, half }) => {
  const result = scoreOf(language, half)
  console.log(printScore(name, half, result))

  it('misses no emergency and no urgent sign', () => {
    expect(result.missedSigns.map(({ number, expected }) => `#${number} ${expected}`)).toEqual([])
  })

  it(`raises no more than ${Math.round((1 - bar.precision) * 100)} % of its alarms without cause`, () => {
    expect(fractionOf(result.precision)).toBeGreaterThanOrEqual(bar.precision)
  })

  it(`reads ${bar.values * 100} % of the answers as they were meant`, () => {
    expect(fractionOf(result.values)).toBeGreaterThanOrEqual(bar.values)
  })

  it(`takes no more than ${bar.wrongValues * 100} % for another value than was meant`, () => {
    expect(1 - fractionOf(result.notWrong)).toBeLessThanOrEqual(bar.wrongValues)
  })
})

describe('two halves of a language', () => {
  it.each(languages)('share no message (%s)', (language) => {
    const [tuned, heldOut] = halves.map((half) => messagesOf(language, half).map(({ text }) => text.toLowerCase()))
    // "no" and "3" are typed by everybody.
    expect(heldOut?.filter((text) => text.length > 12 && tuned?.includes(text))).toEqual([])
  })
})
