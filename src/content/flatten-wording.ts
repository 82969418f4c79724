import { IntlMessageFormat } from 'intl-messageformat'
import type { Problem } from './problem.ts'
import type { PathSegment, YamlSource } from './yaml-source.ts'

/** The messages of one wording file, compiled, by their whole key. */
export interface FlatWording {
  readonly messages: ReadonlyMap<string, IntlMessageFormat>
  readonly problems: readonly Problem[]
}

/** Walks the nested maps of a wording file; the key of a text is the file's name and its path, joined by dots. */
export function flattenWording(name: string, language: string, source: YamlSource): FlatWording {
  const messages = new Map<string, IntlMessageFormat>()
  const problems: Problem[] = []
  const visit = (value: unknown, path: readonly PathSegment[]): void => {
    if (typeof value === 'string') {
      const message = compile(value, language)
      if (message === null) problems.push(source.problem(path, 'is no message that can be filled in', mends.syntax))
      else messages.set([name, ...path].join('.'), message)
    } else if (isMap(value)) {
      for (const [key, inner] of Object.entries(value)) {
        if (key.includes('.')) problems.push(source.problem([...path, key], 'has a dot in its key', mends.dot))
        else visit(inner, [...path, key])
      }
    } else {
      problems.push(source.problem(path, 'must be a text, or a group of named texts', mends.kind))
    }
  }
  visit(source.value, [])
  return { messages, problems }
}

const mends = {
  syntax: 'Check the braces: {name}, or {count, plural, one {…} other {…}}.',
  dot: 'Nest the text instead: the part before the dot holds the part after it.',
  kind: 'Put the text in quotes, or remove the key.',
}

function isMap(value: unknown): value is Record<string, unknown> {
  return typeof value === 'object' && value !== null && !Array.isArray(value)
}

function compile(text: string, language: string): IntlMessageFormat | null {
  if (text.trim() === '') return null
  try {
    // Messages are plain text everywhere: "<" is a sign like any other.
    return new IntlMessageFormat(text, language, undefined, { ignoreTag: true })
  } catch {
    return null
  }
}
