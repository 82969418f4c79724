import { cpSync, mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { dirname, join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { entryLists, lexiconLists } from '#src/content/lexicon-lists.ts'
import { loadContent } from '#src/content/load-content.ts'
import { ContentError, type Problem } from '#src/content/problem.ts'

/** The content folder as it ships. */
export const shippedContent = fileURLToPath(new URL('../../content', import.meta.url))

/** A copy of the shipped content that a test may spoil, with a language small enough to be read in no time. */
export interface ContentCopy {
  readonly root: string
  read(path: string): string
  write(path: string, text: string): void
  remove(path: string): void
  /** Replaces a text that must stand there, and returns the line on which it stands now. */
  replace(path: string, from: string, to: string): number
  /** Counted from 1. */
  lineOf(path: string, text: string): number
  problems(): readonly Problem[]
}

export function copyContent(folder: string): ContentCopy {
  const root = join(folder, 'content')
  cpSync(shippedContent, root, { recursive: true, filter: (path) => !/\/(wording|lexicon)$/.test(path) })
  keepEnglishWords(join(root, 'exercises'))
  const write: ContentCopy['write'] = (path, text) => {
    mkdirSync(dirname(join(root, path)), { recursive: true })
    writeFileSync(join(root, path), text)
  }
  write('wording/en/session.yaml', smallWording)
  write('lexicon/en.yaml', smallLexicon('en'))
  const read = (path: string): string => readFileSync(join(root, path), 'utf8')
  return {
    root,
    read,
    write,
    remove: (path) => rmSync(join(root, path), { recursive: true }),
    lineOf: (path, text) => lineIn(read(path), text),
    replace(path, from, to) {
      const text = read(path)
      const line = lineIn(text, from)
      write(path, text.replace(from, () => to))
      return line
    },
    problems: () => problemsOf(() => loadContent(root)),
  }
}

/** Words in a language whose wording was not copied would be refused; they stand after the English ones. */
function keepEnglishWords(folder: string): void {
  for (const name of readdirSync(folder)) {
    const text = readFileSync(join(folder, name), 'utf8')
    writeFileSync(join(folder, name), text.replace(/(?<=^words:\n {2}en:\n(?: {4}.*\n)*)(?: {2}\S+:\n(?: {4}.*\n)*)+/m, ''))
  }
}

/** The line on which a text begins; it must stand there. */
export function lineIn(whole: string, text: string): number {
  const place = whole.indexOf(text)
  if (place < 0) throw new Error(`"${text}" stands nowhere`)
  return whole.slice(0, place).split('\n').length
}

/** The problems that a read lists; a read that goes well lists none. */
export function problemsOf(read: () => unknown): readonly Problem[] {
  try {
    read()
    return []
  } catch (error) {
    if (error instanceof ContentError) return error.problems
    throw error
  }
}

const smallWording = `greeting: Hello.
set:
  ask: "{sets, plural, one {One set} other {# sets}} of {short}."
  plain: It's < 5 and don't stop.
`

export function smallSuspicion(language: string): string {
  return JSON.stringify({ language, threshold: 1, bias: 0, weights: {} })
}

export function smallLexicon(language: string): string {
  const filled = (lists: readonly string[]) => Object.fromEntries(lists.map((list) => [list, ['word']]))
  const sections = Object.entries(lexiconLists).map(([section, lists]) => [section, filled(lists)])
  const entries = filled(entryLists)
  const lexicon = { language, spellings: {}, numbers: {}, blocks: {}, ...Object.fromEntries(sections), entries, everyday: '' }
  // JSON is YAML as well.
  return JSON.stringify(lexicon, null, 2)
}
