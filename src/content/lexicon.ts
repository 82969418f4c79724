import { LineCounter, parseDocument, type Document } from 'yaml'
import { z } from 'zod'
import { parsePhrase, waysOf, type Phrase } from './lexicon-phrase.ts'
import { readQuickly } from './quick-yaml.ts'
import { noSuspicion, type Suspicion } from './suspicion.ts'
import { entryLists, lexiconLists, type EntryList } from './lexicon-lists.ts'

export type { Phrase, PhrasePart } from './lexicon-phrase.ts'
export type { EntryList, LexiconList, PlaceList, SymptomList, WatchList, CueList } from './lexicon-lists.ts'

/** What one idea is called. `names` are things one has ("no numbness"), `says` everything else ("my hand is numb"). */
export interface PhraseList {
  readonly names: readonly Phrase[]
  readonly says: readonly Phrase[]
}

/** Everything about one language that is needed to understand what a client types. */
export interface Lexicon {
  readonly language: string
  /** How a word may also be written, and the words meant. */
  readonly spellings: ReadonlyMap<string, string>
  readonly numbers: ReadonlyMap<string, number>
  /** Words of `numbers` that count things and never stand on a scale of pain: an article that is also "one". */
  readonly onlyCounts: ReadonlySet<string>
  /** The ideas of {@link LexiconList}, and building blocks that only other lists refer to. */
  readonly lists: ReadonlyMap<string, PhraseList>
  /** Ways of saying the words inside a time, a day or a figure; the longest first, in small letters without accents. */
  readonly entries: ReadonlyMap<EntryList, readonly string[]>
  /** Real words that look like a slip of another word and are none. */
  readonly everyday: ReadonlySet<string>
  /** What sounds like something being wrong though no phrase says so; it stands in a file of its own. */
  readonly suspicion: Suspicion
}

export interface LexiconProblem {
  readonly file: string
  readonly line: number
  readonly path: string
  readonly message: string
  readonly mend: string
}

/** A lexicon that cannot be used, with every problem found. */
export class LexiconError extends Error {
  readonly code = 'lexicon-unusable'
  readonly problems: readonly LexiconProblem[]
  constructor(problems: readonly LexiconProblem[]) {
    super(problems.map((it) => `${it.file}:${it.line}: ${it.path}: ${it.message}. ${it.mend}.`).join('\n'))
    this.name = 'LexiconError'
    this.problems = problems
  }
}

const phrases = z.array(z.string().min(1)).min(1)
const list = z.union([phrases, z.strictObject({ names: phrases.optional(), says: phrases.optional() })])
const required = (names: readonly string[]) => z.strictObject(Object.fromEntries(names.map((name) => [name, list])))
const schema = z.strictObject({
  language: z.string().regex(/^[a-z]{2,3}(-[A-Z]{2})?$/u),
  spellings: z.record(z.string().min(1), z.string().min(1)),
  numbers: z.record(z.string().min(1), z.number().min(0)),
  only_counts: z.array(z.string().min(1)).default([]),
  blocks: z.record(z.string().regex(/^[a-z][a-z-]*$/u), list),
  places: required(lexiconLists.places),
  symptoms: required(lexiconLists.symptoms),
  watched: required(lexiconLists.watched),
  cues: required(lexiconLists.cues),
  certainty: required(lexiconLists.certainty),
  replies: required(lexiconLists.replies),
  commands: required(lexiconLists.commands),
  entries: z.strictObject(Object.fromEntries(entryLists.map((name) => [name, phrases]))),
  everyday: z.string(),
})
type Written = z.infer<typeof schema>
type Path = readonly (string | number)[]
type Report = (path: Path, message: string, mend: string) => void

/** Reads and checks one language's `lexicon/*.yaml`; throws a {@link LexiconError} that lists all that is wrong. */
export function readLexicon(yamlText: string, file: string, suspicion: Suspicion = noSuspicion): Lexicon {
  const lineOf = linesIn(yamlText)
  const problemAt = (path: Path, message: string, mend: string): LexiconProblem => ({
    file, line: lineOf(path), path: path.join('.'), message, mend,
  })
  const read = schema.safeParse(valueOf(yamlText, file))
  if (!read.success) {
    throw new LexiconError(read.error.issues.map((issue) =>
      problemAt(issue.path.map((key) => (typeof key === 'symbol' ? String(key) : key)), issue.message,
        'Give the section exactly the keys that the other language files have')))
  }
  const problems: LexiconProblem[] = []
  const report: Report = (path, message, mend) => problems.push(problemAt(path, message, mend))
  const lists = readLists(read.data, report)
  const entries = readEntries(read.data, report)
  if (problems.length > 0) throw new LexiconError(problems)
  const { language, spellings, numbers, only_counts: onlyCounts, everyday } = read.data
  return {
    language,
    spellings: new Map(Object.entries(spellings)),
    numbers: new Map(Object.entries(numbers)),
    onlyCounts: new Set(onlyCounts),
    lists,
    entries,
    everyday: new Set(everyday.split(/\s+/u).filter((word) => word !== '')),
    suspicion,
  }
}

function valueOf(yamlText: string, file: string): unknown {
  const quick = readQuickly(yamlText)
  if (quick !== null) return quick.value
  const document = parseDocument(yamlText, { lineCounter: new LineCounter() })
  if (document.errors.length === 0) return document.toJS()
  throw new LexiconError(document.errors.map((error) => ({
    file, line: error.linePos?.[0].line ?? 1, path: '', message: error.code, mend: 'Mend the YAML there',
  })))
}

const sections = ['blocks', 'places', 'symptoms', 'watched', 'cues', 'certainty', 'replies', 'commands'] as const

function readEntries({ entries }: Written, report: Report): ReadonlyMap<EntryList, readonly string[]> {
  return new Map(entryLists.map((name): [EntryList, readonly string[]] => {
    const ways = (entries[name] ?? []).flatMap((text, index) => {
      const phrase = parsePhrase(text)
      const said = phrase === null ? null : waysOf(phrase)
      if (said === null) report(['entries', name, index], `"${text}" is no phrase of words alone`, 'Use words, a|b and (optional)')
      return said ?? []
    })
    return [name, [...new Set(ways)].toSorted((a, b) => b.length - a.length)]
  }))
}

function readLists(written: Written, report: Report): ReadonlyMap<string, PhraseList> {
  const lists = new Map<string, PhraseList>()
  const pathOf = new Map<string, Path>()
  for (const section of sections) {
    for (const [name, value] of Object.entries(written[section])) {
      if (lists.has(name)) report([section, name], 'this name is used twice', 'Rename one of the two lists')
      const parseAll = (texts: readonly string[] | undefined, path: Path) => (texts ?? []).flatMap((text, index) => {
        const phrase = parsePhrase(text)
        if (phrase !== null) return [phrase]
        report([...path, index], `"${text}" is no phrase`, 'Use words, a|b, (optional), {list}, # and .. between words')
        return []
      })
      const path = [section, name]
      pathOf.set(name, path)
      lists.set(name, Array.isArray(value)
        ? { names: [], says: parseAll(value, path) }
        : { names: parseAll(value.names, [...path, 'names']), says: parseAll(value.says, [...path, 'says']) })
    }
  }
  for (const [name, path] of pathOf) checkReferences(name, lists, (message, mend) => report(path, message, mend))
  return lists
}

/** The lists that a list's phrases name. */
function referencesOf(list: PhraseList): readonly string[] {
  return [...list.names, ...list.says].flat().flatMap((part) => (part.kind === 'list' ? [part.list] : []))
}

function checkReferences(
  name: string,
  lists: ReadonlyMap<string, PhraseList>,
  report: (message: string, mend: string) => void,
): void {
  const seen = new Set<string>()
  const waiting = [name]
  for (let next = waiting.pop(); next !== undefined; next = waiting.pop()) {
    for (const reference of referencesOf(lists.get(next) ?? { names: [], says: [] })) {
      if (reference === name) report('this list refers to itself', 'Break the circle of {lists}')
      if (!lists.has(reference) && next === name) report(`there is no list {${reference}}`, 'Correct the name')
      if (!seen.has(reference)) waiting.push(reference)
      seen.add(reference)
    }
  }
}

/** Reads the file a second time for the first line asked for: of a lexicon that holds, none is. */
function linesIn(yamlText: string): (path: Path) => number {
  const lines = new LineCounter()
  let document: Document | null = null
  return (path) => {
    document ??= parseDocument(yamlText, { lineCounter: lines })
    for (let depth = path.length; depth > 0; depth -= 1) {
      const node: unknown = document.getIn(path.slice(0, depth), true)
      const range = (node as { readonly range?: readonly number[] } | undefined)?.range
      if (range?.[0] !== undefined) return lines.linePos(range[0]).line
    }
    return 1
  }
}
