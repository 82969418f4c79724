import { isMap, isScalar, isSeq, LineCounter, parseDocument, type Document, type Node, type Pair } from 'yaml'
import { describeFault } from './describe-fault.ts'
import { readQuickly } from './quick-yaml.ts'
import type { Problem } from './problem.ts'

export type PathSegment = string | number

/** A YAML file that was read, with the line on which each of its values stands. */
export interface YamlSource {
  readonly file: string
  readonly value: unknown
  lineOf(path: readonly PathSegment[]): number
  problem(path: readonly PathSegment[], message: string, mend: string): Problem
}

export type YamlReading =
  | { readonly kind: 'read'; readonly source: YamlSource }
  | { readonly kind: 'unreadable'; readonly problems: readonly Problem[] }

export function readYaml(text: string, file: string): YamlReading {
  const quick = readQuickly(text)
  if (quick !== null) return { kind: 'read', source: sourceOf(quick.value, file, once(() => parse(text))) }
  const parsed = parse(text)
  const { document, lineCounter } = parsed
  // Warnings are tags and directives nobody here writes on purpose: as wrong as an error. What follows the first one is
  // mostly its consequence.
  const fault = [...document.errors, ...document.warnings][0]
  if (fault !== undefined) {
    const message = `is not valid YAML: it ${describeFault[fault.code]}`
    const mend = 'Look at the indentation, colons, quotes and brackets of this line and the one above.'
    const { line } = lineCounter.linePos(fault.pos[0])
    return { kind: 'unreadable', problems: [{ file, line, path: '', message, mend }] }
  }
  try {
    return { kind: 'read', source: sourceOf(document.toJS(), file, () => parsed) }
  } catch {
    // An anchor that is missing, or repeated so often that it would fill the memory.
    const mend = 'Write the value out instead of pointing to it with `*`.'
    const { problem } = sourceOf(null, file, () => parsed)
    return { kind: 'unreadable', problems: [problem([], 'uses an anchor that cannot be followed', mend)] }
  }
}

interface ParsedYaml {
  readonly document: Document
  readonly lineCounter: LineCounter
}

function parse(text: string): ParsedYaml {
  const lineCounter = new LineCounter()
  return { document: parseDocument(text, { lineCounter, prettyErrors: false, uniqueKeys: true }), lineCounter }
}

/** `parsed` is asked for only where a line is to be named, which content that holds never needs. */
function sourceOf(value: unknown, file: string, parsed: () => ParsedYaml): YamlSource {
  const lineOf: YamlSource['lineOf'] = (path) => {
    const { document, lineCounter } = parsed()
    return lineCounter.linePos(offsetOf(document.contents, path)).line || 1
  }
  return {
    file,
    value,
    lineOf,
    problem: (path, message, mend) => ({ file, line: lineOf(path), path: formatPath(path), message, mend }),
  }
}

function once<T>(work: () => T): () => T {
  let done: { readonly value: T } | null = null
  return () => (done ??= { value: work() }).value
}

/** Where the deepest known part of a path starts: a problem with something missing is shown where it belongs. */
function offsetOf(root: Node | null, path: readonly PathSegment[]): number {
  let node: unknown = root
  let offset = root?.range?.[0] ?? 0
  for (const segment of path) {
    const step = stepInto(node, segment)
    if (step === null) break
    offset = step.offset ?? offset
    node = step.node
  }
  return offset
}

function stepInto(node: unknown, segment: PathSegment): { offset: number | undefined; node: unknown } | null {
  if (isMap(node)) {
    const pair = (node.items as Pair[]).find(({ key }) => isScalar(key) && String(key.value) === String(segment))
    return pair ? { offset: (pair.key as Node).range?.[0], node: pair.value } : null
  }
  if (isSeq(node)) {
    const item = node.items[Number(segment)] as Node | undefined
    return item ? { offset: item.range?.[0], node: item } : null
  }
  return null
}

export function formatPath(path: readonly PathSegment[]): string {
  return path.reduce<string>((text, segment) => {
    if (typeof segment === 'number') return `${text}[${segment}]`
    return text === '' ? segment : `${text}.${segment}`
  }, '')
}
