// Sources beside each table in published-signs.ts and published-tiers.ts. Single items only, twice in lay words in every
// language that the product reads: a sign that a published list names must not depend on how it is put, nor on the language.
import { readdirSync, readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { readLexicon } from '#src/content/lexicon.ts'
import { readMessage } from '#src/conversation/reading/read-message.ts'
import { alertLevels, type RedFlag } from '#src/domain/triage.ts'
import { arteries, cord, dsAndNs, headache, seriousDisease, type PublishedSign } from './published-signs.ts'
import { tierTriggers } from './published-tiers.ts'

const tables: Readonly<Record<string, readonly PublishedSign[]>> = {
  'arteries of the neck (Rushton 2020)': arteries,
  'the five Ds, the A and the three Ns': dsAndNs,
  'cord questions (Cook 2010)': cord,
  'serious disease (Finucane 2020, Blanpied 2017)': seriousDisease,
  'headache (ICHD-3)': headache,
  'triggers of the tiers': tierTriggers,
}

const lexicons = new URL('../../content/lexicon/', import.meta.url)
const languages = (['en', 'es'] as const).filter((language) => readdirSync(lexicons).includes(`${language}.yaml`))

describe('the languages', () => {
  it('that the product reads are all here', () => {
    expect(readdirSync(lexicons).map((file) => file.replace(/\.yaml$/, '')).toSorted()).toEqual(languages)
  })
})

describe.each(languages)('in %s,', (language) => {
  const file = `${language}.yaml`
  const lexicon = readLexicon(readFileSync(new URL(file, lexicons), 'utf8'), `content/lexicon/${file}`)

  describe.each(Object.entries(tables))('%s', (_, signs) => {
    const phrases = signs.flatMap((sign) => sign.words[language].map((words) => ({ ...sign, words })))

    it.each(phrases)('$item, "$words", is $level and makes the bot $least at least', ({ words, level, least }) => {
      const { redFlags, unsureFlags } = readMessage(words, 'nothing', lexicon)
      const counting = least === 'alarm' ? redFlags : [...redFlags, ...unsureFlags]
      expect(counting.filter((flag) => isAtLeast(flag, level)), `read: ${named(redFlags)}; asked: ${named(unsureFlags)}`).not.toEqual([])
    })
  })
})

function isAtLeast(flag: RedFlag, level: RedFlag['level']): boolean {
  return alertLevels.indexOf(flag.level) >= alertLevels.indexOf(level)
}

function named(flags: readonly RedFlag[]): string {
  return flags.map(({ sign }) => sign).join(', ') || 'nothing'
}
