// The table in README.md is kept true: every row names a file that is there, every test of this folder stands in a row, and
// every source that a test names stands in the table.
import { readdirSync, readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'

const folder = new URL('./', import.meta.url)
const certainties = ['found', 'found-2nd', 'memory:high', 'memory:medium', 'calc', 'exact', 'convention', 'common practice, no source']

interface Row {
  readonly source: string
  readonly where: string
  readonly marks: readonly string[]
  readonly check: string
  readonly file: string
}

const rows: readonly Row[] = readText('README.md')
  .split('\n')
  .filter((line) => /\.test\.ts` *\|$/.test(line))
  .map((line) => {
    const [source = '', where = '', marks = '', check = '', file = ''] = line.split('|').slice(1, -1).map((cell) => cell.trim())
    return { source, where, marks: marks.split('; '), check, file: file.replaceAll('`', '') }
  })

describe('the table of sources and checks', () => {
  it('holds at least sixty checks, one claim a row and no claim twice', () => {
    const claims = rows.map(({ file, check }) => `${file}: ${check}`)
    expect(rows.length).toBeGreaterThanOrEqual(60)
    expect(claims.filter((claim, index) => claims.indexOf(claim) !== index)).toEqual([])
  })

  it('draws on at least twenty sources that can be looked up', () => {
    expect(sourcesIn(rows.map(({ source }) => source).join('\n')).size).toBeGreaterThanOrEqual(20)
  })

  it('gives every row a source, a certainty that is known, and a claim', () => {
    const isKnown = (mark: string): boolean => certainties.includes(mark)
    const wrong = rows.filter(({ source, marks, check }) => source === '' || check === '' || !marks.every(isKnown))
    expect(wrong).toEqual([])
  })

  it('names only files that are there, and every test of this folder', () => {
    const tests = testsOfFolder()
    expect([...new Set(rows.map(({ file }) => file))].toSorted()).toEqual(tests)
  })

  it('names every source that a test of this folder or a published algorithm names', () => {
    const table = sourcesIn(rows.map(({ source }) => source).join('\n'))
    const named = sourceFiles().flatMap((file) => [...sourcesIn(readText(file))].map((source) => ({ file, source })))
    const unnamed = named.filter(({ source }) => !table.has(source))
    expect(unnamed).toEqual([])
  })
})

function readText(file: string): string {
  return readFileSync(new URL(file, folder), 'utf8')
}

function testsOfFolder(): readonly string[] {
  const itself = 'sources-and-checks.test.ts'
  return readdirSync(folder).filter((file) => file.endsWith('.test.ts') && file !== itself).toSorted()
}

function sourceFiles(): readonly string[] {
  const files = readdirSync(folder, { recursive: true, encoding: 'utf8' })
  return files.filter((file) => file.endsWith('.ts')).toSorted()
}

const month = /\b(January|February|March|April|May|June|July|August|September|October|November|December) (?=\d)/g

/** A first author or body with a year, or one of the standards that have none; further authors and years are not told apart. */
function sourcesIn(text: string): ReadonlySet<string> {
  // A name may stand on the line before its year; "April 2026" is a date.
  const prose = text.replaceAll(/\n\s*(\/\/|\*) ?/g, ' ').replaceAll(month, '')
  const dated = prose.matchAll(/(?<![\p{L}-])(\p{Lu}[\p{L}-]+)(?:(?:,| and) \p{Lu}[\p{L}-]+)* ((?:19|20)\d\d)(?![\d-])/gu)
  const undated = prose.matchAll(/RFC 5545|WCAG|ICHD-3|CR10|Temporal(?= as)/g)
  return new Set([...[...dated].map(([, author, year]) => `${author} ${year}`), ...[...undated].map(([name]) => name)])
}
