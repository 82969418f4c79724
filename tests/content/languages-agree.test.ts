// Every language says the same: no text, value or figure is lost on the way from English, least of all the number to call.
import { readdirSync, readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { parse } from 'yaml'
import { disagreements, shapeOf } from '#tests/support/compare-wording.ts'

const folder = 'content/wording'
const original = 'en'

function textsIn(value: unknown, key: string): readonly (readonly [string, string])[] {
  if (typeof value === 'string') return [[key, value]]
  return Object.entries(value as object).flatMap(([name, inner]) => textsIn(inner, `${key}.${name}`))
}

function wordingOf(language: string): ReadonlyMap<string, string> {
  const files = readdirSync(`${folder}/${language}`)
  return new Map(files.flatMap((file) => textsIn(parse(readFileSync(`${folder}/${language}/${file}`, 'utf8')), file.replace('.yaml', ''))))
}

const english = wordingOf(original)

/** What may be typed: how many ways there are is a language's own, and so are the figures in them. */
const isTyped = (key: string): boolean => /^desk\.say\.|\.say-/.test(key) || english.get(key)?.includes('|') === true

describe('the comparison of two languages', () => {
  it.each([
    ['a lost value', 'Call {number}.', 'Llama.', ['value number is lost']],
    ['a value that nobody gives', 'Call.', 'Llama al {number}.', ['value number is added']],
    ['a changed figure', 'After 14 days, 3 times.', 'Tras 15 días, 3 veces.', ['number 14 is lost', 'number 15 is added']],
    ['a figure said once instead of twice', '0 to 0', '0', ['number 0 is lost']],
    ['a lost choice', '{side, select, left {l} right {r} other {}}', '{side, select, left {i} other {}}', ['choice side: right is lost']],
    ['a lost figure inside a choice', '{n, plural, =0 {} other {# of 7}}', '{n, plural, =0 {} other {# de}}', ['number 7 is lost']],
  ])('notices %s', (_title, from, to, expected) => {
    expect(disagreements(shapeOf(from, 'en'), shapeOf(to, 'es'))).toEqual(expected)
  })

  it.each([
    ['a decimal comma', '0.5 kg', '0,5 kg'],
    ['other words for counting', '{n, plural, one {# set} other {# sets}}', '{n, plural, one {# serie} many {# de series} other {# series}}'],
    ['a choice where a word was inserted', 'the {side} side', 'el lado {side, select, left {izquierdo} other {derecho}}'],
    ['another order', '{a} before {b}: 1, 2', '{b}: 2 y 1, {a}'],
  ])('allows %s', (_title, from, to) => {
    expect(disagreements(shapeOf(from, 'en'), shapeOf(to, 'es'))).toEqual([])
  })

  it('has texts to compare, and among them texts that name the emergency number', () => {
    expect(english.size).toBeGreaterThan(500)
    expect([...english.values()].filter((text) => text.includes('{number}')).length).toBeGreaterThan(10)
  })
})

describe.each(readdirSync(folder).filter((language) => language !== original))('the wording in "%s"', (language) => {
  const translated = wordingOf(language)

  it('has the same texts as English, no more and no fewer', () => {
    expect([...translated.keys()].toSorted()).toEqual([...english.keys()].toSorted())
  })

  it('takes the same values, makes the same choices and names the same figures', () => {
    const wrong = [...english].flatMap(([key, text]) => {
      const other = translated.get(key)
      if (other === undefined || isTyped(key)) return []
      return disagreements(shapeOf(text, original), shapeOf(other, language)).map((fault) => `${key}: ${fault}`)
    })
    expect(wrong).toEqual([])
  })

  it('names the number to call wherever English does, as often', () => {
    const timesIn = (text: string): number => text.split('{number}').length - 1
    const lost = [...english].filter(([key, text]) => timesIn(translated.get(key) ?? '') < timesIn(text))
    expect(lost.map(([key]) => key)).toEqual([])
  })

  it('lists what may be typed as single phrases, each once', () => {
    const lists = [...translated].filter(([key]) => isTyped(key)).map(([key, text]) => [key, text.split('|')] as const)
    const isWrong = (phrase: string, at: number, phrases: readonly string[]): boolean =>
      phrase === '' || phrase.trim() !== phrase || phrases.indexOf(phrase) !== at
    expect(lists.flatMap(([key, phrases]) => phrases.filter(isWrong).map((phrase) => `${key}: ${phrase}`))).toEqual([])
  })
})
