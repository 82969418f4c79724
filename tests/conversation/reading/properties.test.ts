import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { controls } from '#src/domain/set-report.ts'
import { readMessage, type Awaiting, type Reading } from '#src/conversation/reading/read-message.ts'
import { signLevels, signNames } from '#src/conversation/reading/signs.ts'
import { english, read } from './reading-of.ts'

const awaitings: readonly Awaiting[] = ['pain', 'control', 'reserve', 'yesno', 'nothing']
const words = ['numb', 'not', 'no', 'my', 'arm', 'is', 'dizzy', '3', '/', '10', ',', '.', '?', 'but', 'and', 'or',
  'if', 'I', 'fell', 'stop', 'sorry', '-', 'left', 'pain', '\n', 'half', 'yes', 'a little', 'steady', 'lost', 'face',
  'nothing', 'four', 'never', 'chest', 'tight', 'gone', '½', '४', '👍', '<b>', "can't", 'feel', '١', '\u202e',
  '\u0000', '\ud800', 'ﷺ']

const isValue: Readonly<Record<Awaiting, (value: Reading['value']) => boolean>> = {
  pain: (value) => value === null || (Number.isInteger(value) && Number(value) >= 0 && Number(value) <= 10),
  control: (value) => value === null || controls.some((control) => control === value),
  reserve: (value) => value === null || (Number.isInteger(value) && Number(value) >= 0),
  yesno: (value) => value === null || typeof value === 'boolean',
  nothing: (value) => value === null,
}

function checkForm(reading: Reading, awaiting: Awaiting): void {
  const flags = [...reading.redFlags, ...reading.unsureFlags].map(({ sign }) => String(sign))
  const order = (of: readonly { readonly sign: string }[]): readonly number[] =>
    of.map(({ sign }) => signNames.findIndex((name) => name === sign))
  expect(isValue[awaiting](reading.value)).toBe(true)
  expect(new Set(flags).size).toBe(flags.length)
  for (const flag of [...reading.redFlags, ...reading.unsureFlags]) {
    expect(flag).toEqual({ sign: flag.sign, level: signLevels[flag.sign as unknown as keyof typeof signLevels] })
  }
  for (const list of [reading.redFlags, reading.unsureFlags]) expect(order(list)).toEqual([...order(list)].sort((a, b) => a - b))
  expect(reading.value === null || flags.length === 0).toBe(true)
  expect(reading.understood).toBe(reading.value !== null || flags.length > 0 || reading.stop || reading.command !== null)
  expect(reading.stop).toBe(reading.command === 'stop')
}

const anyText = fc.oneof(
  fc.string({ unit: 'binary', maxLength: 60 }),
  fc.string({ unit: 'grapheme', maxLength: 60 }),
  fc.array(fc.constantFrom(...words), { maxLength: 14 }).map((parts) => parts.join(' ')),
)
const seed = 20260401

describe('any text at all', () => {
  it(`is read without a throw into a well-formed reading (seed ${seed})`, { timeout: 240_000 }, () => {
    fc.assert(fc.property(anyText, fc.constantFrom(...awaitings), (text, awaiting) => {
      checkForm(readMessage(text, awaiting, english), awaiting)
    }), { numRuns: 10_000, seed })
  })

  it(`reads the same twice, and capitals and spaces around change nothing (seed ${seed})`, { timeout: 120_000 }, () => {
    const plainWords = words.filter((word) => /^[a-z0-9' ]+$/iu.test(word))
    const plain = fc.array(fc.constantFrom(...plainWords), { maxLength: 10 }).map((parts) => parts.join(' '))
    fc.assert(fc.property(plain, fc.constantFrom(...awaitings), (text, awaiting) => {
      const reading = readMessage(text, awaiting, english)
      expect(readMessage(text, awaiting, english)).toEqual(reading)
      // The words that were matched are shown as they were typed.
      const inCapitals = readMessage(`  ${text.toUpperCase()} `, awaiting, english)
      const matched = inCapitals.matched.map(({ sign, words: typed }) => ({ sign, words: typed.toLowerCase() }))
      expect({ ...inCapitals, matched }).toEqual({ ...reading, matched: reading.matched.map(({ sign, words: typed }) => ({ sign, words: typed.toLowerCase() })) })
    }), { numRuns: 1000, seed })
  })

  it(`keeps its signs when neutral words follow or come before (seed ${seed})`, { timeout: 120_000 }, () => {
    const sign = fc.constantFrom('my arm is numb', 'I feel dizzy', 'I fell down the stairs', 'worst headache ever',
      'chest pain', 'I want to die', 'my face is drooping', "I can't swallow")
    const neutral = fc.constantFrom('The weather is nice.', 'Thanks for asking.', 'I did three sets.',
      'It was 18:00.', 'See you tomorrow.', 'Pain 2.', 'No problem.', 'The band is green.', 'Not today.',
      'All good otherwise.')
    fc.assert(fc.property(sign, neutral, neutral, (text, before, after) => {
      expect(read(`${text}. ${after}`).redFlags).toEqual(read(text).redFlags)
      expect(read(`${before} ${text}.`).redFlags).toEqual(read(text).redFlags)
    }), { numRuns: 800, seed })
  })

  it.each([
    ['nothing', ''], ['white space', ' \t\n\u00a0\u2003 '], ['4,096 letters', 'a'.repeat(4096)],
    ['4,096 characters of words', 'numb no 3 '.repeat(410).slice(0, 4096)],
    ['right-to-left marks', '\u202e\u200f4\u2066'],
    ['control characters', '\u0000\u0007\u001b[31m4'], ['a lone surrogate', '\ud83d'],
    ['stacked marks', `4${'\u0301'.repeat(500)}`], ['markup', '<script>alert(1)</script>'],
    ['brackets', '('.repeat(2000)], ['dashes', '-'.repeat(2000)],
    ['"and a half" again and again', 'and a half '.repeat(370)],
  ])('of %s is read in every state', (_, text) => {
    for (const awaiting of awaitings) checkForm(readMessage(text, awaiting, english), awaiting)
  })
})
