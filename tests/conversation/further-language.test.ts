// A further language is files only: wording, a lexicon, weights of suspicion and the words of the exercises. Here it is Esperanto in a few words,
// from memory; nothing in the code knows of it.
import { mkdtempSync, readdirSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import type { Language } from '#src/content/content.ts'
import { entryLists, lexiconLists } from '#src/content/lexicon-lists.ts'
import { loadContent } from '#src/content/load-content.ts'
import { readMessage } from '#src/conversation/reading/read-message.ts'
import { copyContent, lineIn, smallSuspicion } from '#tests/support/content-copy.ts'
import { typedWith } from './ask-question.ts'

const name = 'eo'
const few: Readonly<Record<string, readonly string[]>> = {
  arm: ['brako', 'mano'],
  numb: ['sensenta'],
  'says-yes': ['jes'],
  'says-no': ['ne'],
  not: ['ne'],
  'no-pain': ['sen doloro'],
  'every-day': ['ciutage'],
  'span-word': ['gis'],
  'and-word': ['kaj'],
  'at-word': ['je (la)'],
  'half-day-pm': ['posttagmeze'],
}

function fewWords(): string {
  const listOf = (list: string): readonly string[] => few[list] ?? [`${list}o`]
  const filled = (lists: readonly string[]) => Object.fromEntries(lists.map((list) => [list, listOf(list)]))
  const sections = Object.entries(lexiconLists).map(([section, lists]) => [section, filled(lists)])
  const numbers = { nul: 0, unu: 1, du: 2, tri: 3 }
  const entries = filled(entryLists)
  return JSON.stringify({ language: name, spellings: {}, numbers, blocks: {}, ...Object.fromEntries(sections), entries, everyday: '' })
}

function loadFurther(): Language {
  const folder = mkdtempSync(join(tmpdir(), 'nuchal-'))
  try {
    return loadFrom(folder)
  } finally {
    rmSync(folder, { recursive: true })
  }
}

function loadFrom(folder: string): Language {
  const copy = copyContent(folder)
  copy.write(`wording/${name}/session.yaml`, copy.read('wording/en/session.yaml'))
  copy.write(`lexicon/${name}.yaml`, fewWords())
  copy.write(`suspicion/${name}.json`, smallSuspicion(name))
  for (const file of readdirSync(`${copy.root}/exercises`)) {
    const text = copy.read(`exercises/${file}`)
    const words = text.split('\n').slice(lineIn(text, '\nwords:\n  en:\n') + 1).join('\n').replace('  en:\n', `  ${name}:\n`)
    copy.write(`exercises/${file}`, `${text.trimEnd()}\n${words}`)
  }
  const language = loadContent(copy.root).languages.get(name)
  if (language === undefined) throw new Error('the further language was not read')
  return language
}

describe('a further language', () => {
  const language = loadFurther()

  it('reads a number, a yes and a no', () => {
    const read = (text: string, awaiting: 'pain' | 'yesno') => readMessage(text, awaiting, language.lexicon).value
    expect([read('du', 'pain'), read('3', 'pain'), read('sen doloro', 'pain'), read('Jes!', 'yesno'), read('ne', 'yesno')])
      .toEqual([2, 3, 0, true, false])
  })

  it('hears a sign and its denial, and shows the words', () => {
    const { redFlags, matched } = readMessage('mano SENSENTA', 'pain', language.lexicon)
    expect(redFlags.map(({ sign }) => sign)).toEqual(['arm-numbness'])
    expect(matched.map(({ words }) => words)).toEqual(['mano SENSENTA'])
    expect(readMessage('mano ne sensenta', 'pain', language.lexicon).redFlags).toEqual([])
  })

  it.each([
    [{ kind: 'weekdays' }, 'lundo, ĵaŭdo kaj dim', ['mon', 'thu', 'sun']],
    [{ kind: 'weekdays' }, 'lundo ĝis vendredo', ['mon', 'tue', 'wed', 'thu', 'fri']],
    [{ kind: 'weekdays' }, 'Ĉiutage', ['mon', 'tue', 'wed', 'thu', 'fri', 'sat', 'sun']],
    [{ kind: 'wall-time' }, 'je la 7 posttagmeze', '19:00'],
    [{ kind: 'time-span' }, '21:00 ĝis 8:00', { from: '21:00', to: '08:00' }],
  ] as const)('reads $0.kind "%s"', (question, text, value) => {
    expect(typedWith(language, question, text)).toEqual({ kind: 'answer', value })
  })
})
