// What a signature of the triage content rests on: every part of it, and nothing of the layout.
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { loadContent } from '#src/content/load-content.ts'
import { digestOfMatter, readTriageMatter } from '#src/content/triage-matter.ts'
import { copyContent, shippedContent, type ContentCopy } from '#tests/support/content-copy.ts'

let folder = ''
let copy: ContentCopy
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'nuchal-'))
  copy = copyContent(folder)
  copy.write('wording/en/flag.yaml', 'emergency: Stop. Call {number} now.\nurgent: Stop.\n')
  copy.write('wording/en/desk.yaml', 'idle: What now?\n')
})
afterAll(() => rmSync(folder, { recursive: true }))

function digest(): string {
  return digestOfMatter(readTriageMatter(copy.root, loadContent(copy.root)))
}

/** The digest while a file says something else. */
function digestWith(file: string, from: string, to: string): string {
  const before = copy.read(file)
  copy.replace(file, from, to)
  try {
    return digest()
  } finally {
    copy.write(file, before)
  }
}

describe('the digest of the triage content', () => {
  it.each([
    ['a sign’s level', 'triage.yaml', 'id: arm-numbness, level: urgent', 'id: arm-numbness, level: emergency'],
    ['a source', 'triage.yaml', 'source: "Cook 2010 (gait); level our choice"', 'source: our choice'],
    ['a time', 'triage.yaml', 'together_within_days: { value: 14', 'together_within_days: { value: 13'],
    ['a gate', 'triage.yaml', 'noted:\n    value: [past-cancer]', 'noted:\n    value: [past-cancer, epilepsy]'],
    ['the version', 'triage.yaml', 'version: 2026', 'version: 2027'],
    ['what a client is told', 'wording/en/flag.yaml', 'Call {number} now', 'Call {number}'],
    ['a threshold on which a level rests', 'protocols/novice.yaml', 'urgent_from: { value: 8', 'urgent_from: { value: 7'],
  ])('is another with %s changed', (_what, file, from, to) => {
    expect(digestWith(file, from, to)).not.toBe(digest())
  })

  it.each([
    ['the layout of the file', 'triage.yaml', 'wound: [neck-surgery]', 'wound:\n    - neck-surgery # only those'],
    ['the order of its keys', 'wording/en/flag.yaml', 'emergency: Stop. Call {number} now.\nurgent: Stop.', 'urgent: Stop.\nemergency: Stop. Call {number} now.'],
    ['words that say nothing of signs', 'wording/en/desk.yaml', 'What now?', 'What next?'],
    ['a threshold that is no matter of triage', 'protocols/novice.yaml', 'band_entry: { value: 0.15', 'band_entry: { value: 0.14'],
  ])('is the same with %s changed', (_what, file, from, to) => {
    expect(digestWith(file, from, to)).toBe(digest())
  })
})

describe('the shipped triage content', () => {
  it('holds every text about signs, and the screen, in every language', () => {
    const content = loadContent(shippedContent)
    const { wording } = readTriageMatter(shippedContent, content)
    expect(Object.keys(wording)).toEqual([...content.languages.keys()])
    for (const texts of Object.values(wording)) {
      const { signs } = content.triage
      expect(signs.filter(({ id }) => texts[`signs.client.${id}`] === undefined || texts[`signs.therapist.${id}`] === undefined)).toEqual([])
      const files = new Set(Object.keys(texts).map((key) => key.split('.')[0]))
      expect([...files].toSorted()).toEqual(['called', 'clearing', 'common', 'conditions', 'flag', 'session', 'signs', 'symptom'])
      expect(Object.keys(texts)).toEqual(expect.arrayContaining(['session.screen.ask', 'session.health-change', 'common.help', 'common.locked', 'flag.emergency']))
    }
  })
})
