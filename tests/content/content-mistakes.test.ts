import { describe, expect, it } from 'vitest'
import { loadContent } from '#src/content/load-content.ts'
import type { Problem } from '#src/content/problem.ts'
import { copyContent, smallLexicon, smallSuspicion, type ContentCopy } from '#tests/support/content-copy.ts'
import { makeTemporaryFolder } from '#tests/support/temporary-folder.ts'
import { mistakes } from './mistakes.ts'

async function makeCopy(): Promise<ContentCopy> {
  return copyContent(await makeTemporaryFolder())
}

describe('a mistake in the content', () => {
  it.each(mistakes)('$title is listed with file, line and mend', async ({ file, from, to, at, path, message, mend }) => {
    const copy = await makeCopy()
    copy.replace(file, from, to)
    expect(copy.problems()).toEqual([{ file: `content/${file}`, line: copy.lineOf(file, at ?? to), path, message, mend }])
  })

  it('does not hide another: all of them are thrown together, file by file', async () => {
    const copy = await makeCopy()
    copy.replace('exercises/seated-band.yaml', 'rest_s: 90', 'rest_s: 900')
    copy.replace('exercises/seated-band.yaml', 'ladder: extension\n', '')
    copy.replace('protocols/novice.yaml', 'red: { value: 2', 'red: { value: 9')
    copy.replace('triage.yaml', 'note: >-', 'remark: >-')
    expect(copy.problems().map(({ file, path, message }) => [file, path, message])).toEqual([
      ['content/exercises/seated-band.yaml', 'ladder', 'is missing'],
      ['content/exercises/seated-band.yaml', 'rest_s', 'must be at most 300'],
      ['content/protocols/novice.yaml', 'running.red.value', 'must be at most 3'],
      ['content/triage.yaml', 'note', 'is missing'],
      ['content/triage.yaml', 'remark', 'is no known key here'],
    ])
  })

  it('is put into one line each by the error', async () => {
    const copy = await makeCopy()
    const line = copy.replace('exercises/seated-band.yaml', 'rest_s: 90', 'rest_s: 900')
    expect(() => loadContent(copy.root)).toThrow(
      expect.objectContaining({
        code: 'content-unusable',
        message: `content/exercises/seated-band.yaml:${line}: rest_s must be at most 300. Lower it to 300 or less.`,
      }),
    )
  })
})

describe('a file of the content', () => {
  const whole = (file: string, message: string, mend: string): Problem => ({ file: `content/${file}`, line: 1, path: '', message, mend })

  it.each(['triage.yaml', 'restrictions.yaml', 'lexicon/en.yaml'])('%s cannot be left out', async (file) => {
    const copy = await makeCopy()
    copy.remove(file)
    expect(copy.problems()).toEqual([whole(file, 'cannot be read', 'Create it, or make it readable.')])
  })

  it.each(['exercises', 'ladders', 'protocols', 'wording'])('cannot be missed together with its folder: %s', async (folder) => {
    const copy = await makeCopy()
    copy.remove(folder)
    expect(copy.problems()).toContainEqual(whole(folder, 'cannot be read as a folder', 'Create it, with at least one file in it.'))
  })

  it.each([
    ['has another ending', 'exercises/spare.yml', 'does not end in .yaml', 'Rename it, or move it out of this folder.'],
    ['is named after no language', 'wording/english_/x.yaml', '', ''],
  ])('is refused where it %s', async (_, file, message, mend) => {
    const copy = await makeCopy()
    copy.write(file, 'greeting: Hello.')
    const expected = file.startsWith('wording')
      ? whole('wording/english_', 'is named after no language', 'Name it after a language tag such as en or pt-BR (BCP 47).')
      : whole(file, message, mend)
    expect(copy.problems()).toEqual([expected])
  })

  it('may be a language of its own, which needs a lexicon in the same language', async () => {
    const copy = await makeCopy()
    copy.write('wording/nl/session.yaml', 'greeting: Hallo.')
    copy.write('lexicon/nl.yaml', smallLexicon('en'))
    copy.write('suspicion/nl.json', smallSuspicion('nl'))
    expect(copy.problems()).toEqual([
      whole('lexicon/nl.yaml', 'is of another language than its file is named after', 'Write language: nl.'),
    ])
    copy.write('lexicon/nl.yaml', smallLexicon('nl'))
    expect([...loadContent(copy.root).languages.keys()]).toEqual(['en', 'nl'])
  })

  it('is listed with the problems of a lexicon', async () => {
    const copy = await makeCopy()
    copy.write('lexicon/en.yaml', 'language: [')
    expect(copy.problems().map(({ file, line }) => [file, line])).toEqual([['content/lexicon/en.yaml', 1]])
  })

  it('may not hold a restriction that no exercise heeds', async () => {
    const copy = await makeCopy()
    copy.replace('restrictions.yaml', 'no-load-through-head:', 'no-cold-rooms: Nothing.\nno-load-through-head:')
    expect(copy.problems()).toEqual([
      {
        file: 'content/restrictions.yaml',
        line: copy.lineOf('restrictions.yaml', 'no-cold-rooms'),
        path: 'no-cold-rooms',
        message: 'is heeded by no exercise',
        mend: 'Name it in an exercise, or remove it.',
      },
    ])
  })
})
