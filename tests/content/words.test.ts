import { describe, expect, it } from 'vitest'
import { loadContent } from '#src/content/load-content.ts'
import { brandAs, type ExerciseId } from '#src/domain/identifier.ts'
import { copyContent, smallSuspicion } from '#tests/support/content-copy.ts'
import { makeTemporaryFolder } from '#tests/support/temporary-folder.ts'

async function makeWords(wording: string, language = 'en') {
  const copy = copyContent(await makeTemporaryFolder())
  copy.write('wording/en/session.yaml', wording)
  if (language !== 'en') {
    copy.write(`wording/${language}/session.yaml`, wording)
    copy.write(`lexicon/${language}.yaml`, copy.read('lexicon/en.yaml').replace('"en"', `"${language}"`))
    copy.write(`suspicion/${language}.json`, smallSuspicion(language))
  }
  const words = loadContent(copy.root).languages.get(language)?.words
  if (words === undefined) throw new Error('the language was not loaded')
  return words
}

describe('wording', () => {
  it('is found under its file and path', async () => {
    const words = await makeWords('set:\n  ask:\n    pain: How much did it hurt?\n')
    expect([words.say('session.set.ask.pain'), words.has('session.set.ask.pain'), words.has('session.set.ask')]).toEqual([
      'How much did it hurt?',
      true,
      false,
    ])
  })

  it.each([
    [1, 'One set of 0.25 kg.'],
    [3, '3 sets of 0.25 kg.'],
  ])('fills in its values: %i', async (sets, expected) => {
    const words = await makeWords('dose: "{sets, plural, one {One set} other {# sets}} of {load} kg."')
    expect(words.say('session.dose', { sets, load: 0.25 })).toBe(expected)
  })

  it('counts as its language does', async () => {
    const words = await makeWords('dose: "{sets, plural, one {# série} other {# séries}}"', 'fr')
    expect([0, 1, 2].map((sets) => words.say('session.dose', { sets }))).toEqual(['0 série', '1 série', '2 séries'])
  })

  it('takes apostrophes, angle brackets and values as they are', async () => {
    const words = await makeWords(`plain: "Don't stop at <5>, {name}."`)
    expect(words.say('session.plain', { name: '<b>{O\'Neill}</b>' })).toBe('Don\'t stop at <5>, <b>{O\'Neill}</b>.')
  })

  it.each([
    ['unknown-key', 'session.absent', {}],
    ['missing-value', 'session.dose', {}],
    ['missing-value', 'session.hello', {}],
    ['unfit-value', 'session.when', { at: 'not a time' }],
  ])('throws %s where it cannot say %s', async (code, key, values) => {
    const words = await makeWords('hello: Hello {name}.\ndose: "{sets, plural, other {#}}"\nwhen: "{at, date}"')
    expect(() => words.say(key, values)).toThrow(expect.objectContaining({ name: 'WordingError', code }))
  })

  it('names the key and never the values in its error', async () => {
    const words = await makeWords('when: "{at, date} {note}"')
    expect(() => words.say('session.when', { at: 'my arm went numb', note: 'secret' })).toThrow(/^Wording "session.when" in "en": [a-z ]+$/)
  })

  it('holds the words of every exercise, and throws for one that has none', async () => {
    const words = await makeWords('greeting: Hello.')
    expect(words.exercise(brandAs<ExerciseId>('seated-band'), null).short).toBe('band pull')
    expect(() => words.exercise(brandAs<ExerciseId>('absent'), null)).toThrow(expect.objectContaining({ code: 'unknown-exercise' }))
  })
})
