// What clients write, labelled blind: whoever wrote them had not seen the lexicon or the reader. The bar is our choice; a sign that is
// missed or a value that is read wrongly can hurt somebody, a question too many only costs time. The part that the reader was mended
// by from the first has to hold the whole bar. In the larger corpus, from which the weights of suspicion are learnt as well, no sign
// may go by without an alarm or a question. The part held out tells how far that carries to words that nobody had in mind.
import { readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { readLexicon, type Lexicon } from '#src/content/lexicon.ts'
import { readSuspicion } from '#src/content/suspicion.ts'
import { readMessage } from '#src/conversation/reading/read-message.ts'
import { alternatives, hasMessages, languages, levels, messagesOf, parts, type Part } from './messages.ts'
import { printScore } from './print-score.ts'
import { fractionOf, score, type Score } from './score.ts'

/** What each part has to reach; of wrong values no more than that. */
interface Bar {
  readonly emergency: number
  readonly urgent: number
  readonly alarmedOrAsked: number
  readonly precision: number
  readonly undisturbed: number
  readonly values: number
  readonly wrongValues: number
}

const aim: Bar = { emergency: 1, urgent: 1, alarmedOrAsked: 1, precision: 0.95, undisturbed: 0.97, values: 0.9, wrongValues: 0.02 }
/**
 * Measured on 2026-11-28, after the last change of the lexicons; only to be bettered. The corpus holds what fits no phrase without
 * harm; the part held out is far from the aim, and the hazard log says so.
 */
const reached: Readonly<Record<string, Readonly<Record<Exclude<Part, 'tuned'>, Bar>>>> = {
  en: {
    corpus: { emergency: 0.97, urgent: 0.97, alarmedOrAsked: 0.99, precision: 0.93, undisturbed: 0.9, values: 0.95, wrongValues: 0.01 },
    'held-out': { emergency: 0.8, urgent: 0.88, alarmedOrAsked: 0.97, precision: 0.88, undisturbed: 0.87, values: 0.87, wrongValues: 0.02 },
  },
  es: {
    corpus: { emergency: 0.97, urgent: 0.96, alarmedOrAsked: 0.99, precision: 0.95, undisturbed: 0.93, values: 0.92, wrongValues: 0.02 },
    'held-out': { emergency: 0.93, urgent: 0.87, alarmedOrAsked: 0.97, precision: 0.91, undisturbed: 0.94, values: 0.93, wrongValues: 0.01 },
  },
}
const leastMessages: Readonly<Record<Part, number>> = { tuned: 300, corpus: 300, 'held-out': 180 }
const leastOfEachSign = 2
/** No label of a sign: it stands for what no phrase tells. */
const unlabelled = 'something-else'

const content = new URL('../../../../content/', import.meta.url)

function lexiconOf(language: string): Lexicon {
  const textOf = (path: string): string => readFileSync(new URL(path, content), 'utf8')
  const suspicion = readSuspicion(textOf(`suspicion/${language}.json`), `content/suspicion/${language}.json`, language)
  if (suspicion.kind === 'unusable') throw new Error(suspicion.problem.message)
  return readLexicon(textOf(`lexicon/${language}.yaml`), `content/lexicon/${language}.yaml`, suspicion.suspicion)
}

function scoreOf(language: string, part: Part): Score {
  const lexicon = lexiconOf(language)
  return score(messagesOf(language, part), ({ text, awaiting }) => readMessage(text, awaiting, lexicon))
}

function barOf(language: string, part: Part): Bar {
  const bar = part === 'tuned' ? aim : reached[language]?.[part]
  if (bar === undefined) throw new Error(`no figures for ${language}: write down what is measured`)
  return bar
}

describe('the languages', () => {
  it('all have labelled messages', () => {
    expect(languages).toContain('en')
    expect(languages.filter((language) => !parts.every((part) => hasMessages(language, part)))).toEqual([])
  })
})

const files = languages.flatMap((language) => parts.map((part) => ({ name: `${language}.${part}`, language, part })))

describe.each(files)('the labelled messages of $name', ({ language, part }) => {
  const messages = messagesOf(language, part)
  const labels = messages.flatMap(({ signs }) => signs)

  it(`are ${leastMessages[part]} at least, with every emergency and urgent sign ${leastOfEachSign} times at least`, () => {
    expect(messages.length).toBeGreaterThanOrEqual(leastMessages[part])
    const grave = [...levels].flatMap(([id, level]) => (level === 'routine' || id === unlabelled ? [] : [id]))
    expect(grave.filter((id) => labels.filter((label) => label === id).length < leastOfEachSign)).toEqual([])
  })

  it('name signs of the triage content, alternatives of one level, and no value beside a sign', () => {
    const named = [...labels.flatMap(alternatives), ...messages.flatMap(({ asks }) => asks)]
    expect(named.filter((id) => !levels.has(id))).toEqual([])
    expect(labels).not.toContain(unlabelled)
    expect(labels.filter((label) => new Set(alternatives(label).map((id) => levels.get(id))).size > 1)).toEqual([])
    expect(messages.filter(({ signs, value }) => signs.length > 0 && value !== undefined)).toEqual([])
  })
})

// As far as its bar says.
describe.each(files)('the reader, on $name,', ({ name, language, part }) => {
  const result = scoreOf(language, part)
  const bar = barOf(language, part)
  console.log(printScore(name, part, result))

  it('alarms at once where an emergency or urgent sign is told', () => {
    expect(fractionOf(result.recall.emergency)).toBeGreaterThanOrEqual(bar.emergency)
    expect(fractionOf(result.recall.urgent)).toBeGreaterThanOrEqual(bar.urgent)
  })

  it('lets none of them go by without an alarm or a question', () => {
    expect(fractionOf(result.alarmedOrAsked)).toBeGreaterThanOrEqual(bar.alarmedOrAsked)
  })

  it('has cause for its alarms, and leaves plain messages alone', () => {
    expect(fractionOf(result.precision)).toBeGreaterThanOrEqual(bar.precision)
    expect(fractionOf(result.undisturbed)).toBeGreaterThanOrEqual(bar.undisturbed)
  })

  it('reads answers as they were meant, and hardly ever as another value', () => {
    expect(fractionOf(result.values)).toBeGreaterThanOrEqual(bar.values)
    expect(1 - fractionOf(result.notWrong)).toBeLessThanOrEqual(bar.wrongValues)
  })
})

describe('what is held out', () => {
  it.each(languages)('holds no message that the reader was mended by (%s)', (language) => {
    const textsOf = (part: Part): readonly string[] => messagesOf(language, part).map(({ text }) => text.toLowerCase())
    const known = new Set([...textsOf('tuned'), ...textsOf('corpus')])
    // "No" and "I want to stop now" are typed by everybody.
    expect(textsOf('held-out').filter((text) => text.split(' ').length > 5 && known.has(text))).toEqual([])
  })
})
