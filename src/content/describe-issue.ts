import type { z } from 'zod'
import type { PathSegment } from './yaml-source.ts'

type Issue = z.core.$ZodIssue
type IssueOf<Code extends Issue['code']> = Extract<Issue, { code: Code }>

/** What is wrong in plain words, and how it is mended. */
export interface IssueWords {
  readonly path: readonly PathSegment[]
  readonly message: string
  readonly mend: string
}

/** One issue of a schema in words; unknown keys give one each. `valueAt` looks up what was written. */
export function describeIssue(issue: Issue, valueAt: (path: readonly PathSegment[]) => unknown): readonly IssueWords[] {
  const path = issue.path.filter((segment) => typeof segment !== 'symbol')
  if (issue.code === 'unrecognized_keys') {
    const mend = 'Remove it, or mend its spelling.'
    return issue.keys.map((key) => ({ path: [...path, key], message: 'is no known key here', mend }))
  }
  const describe = words[issue.code] as (issue: Issue, value: unknown) => Described
  const [message, mend] = describe(issue, valueAt(path))
  return [{ path, message, mend }]
}

type Described = readonly [message: string, mend: string]
type Describe<Code extends Issue['code']> = (issue: IssueOf<Code>, value: unknown) => Described

const words: { [Code in Issue['code']]: Describe<Code> } = {
  invalid_type: (issue, value) => describeType(issue.expected, value),
  invalid_value: (issue, value) => describeChoice(issue.values.map(String), value),
  invalid_union: (issue, value) => describeChoice(optionsOf(issue), value),
  too_small: (issue) => describeLimit(issue.origin, Number(issue.minimum), 'least'),
  too_big: (issue) => describeLimit(issue.origin, Number(issue.maximum), 'most'),
  invalid_format: (issue) => [issue.message, 'Write it in that form.'],
  not_multiple_of: (issue) => [`must be a multiple of ${issue.divisor}`, 'Round it.'],
  unrecognized_keys: (issue) => [`has unknown keys: ${issue.keys.join(', ')}`, 'Remove them, or mend their spelling.'],
  invalid_key: () => ['has a key that cannot be used', 'Mend the spelling of the key.'],
  invalid_element: () => ['has an element that cannot be used', 'Mend or remove it.'],
  custom: (issue) => [issue.message, String(issue.params?.['mend'] ?? 'Mend it as the message says.')],
}

const nouns: Readonly<Record<string, string>> = {
  string: 'text',
  number: 'a number',
  int: 'a whole number',
  boolean: 'true or false',
  array: 'a list',
  tuple: 'a list',
  object: 'a group of named values',
  record: 'a group of named values',
  null: 'null',
}

const mendsByType: Readonly<Record<string, string>> = {
  string: 'Put it in quotes.',
  number: 'Write a plain number, without quotes and without a unit.',
  int: 'Write a whole number, without quotes and without a unit.',
  boolean: 'Write true or false, without quotes.',
  array: 'Write a list: [a, b], or one item a line after a dash.',
  tuple: 'Write a list: [a, b], or one item a line after a dash.',
}

function describeType(expected: string, value: unknown): Described {
  const noun = nouns[expected] ?? expected
  if (value === undefined) return ['is missing', `Add it: ${noun}.`]
  const isPlain = typeof value === 'string' || typeof value === 'number' || typeof value === 'boolean'
  if (expected === 'string' && !isPlain) return [`must be ${noun}`, 'Write a text in quotes.']
  return [`must be ${noun}`, mendsByType[expected] ?? `Write ${noun}.`]
}

function describeChoice(options: readonly string[], value: unknown): Described {
  const list = options.join(', ')
  if (value === undefined) return ['is missing', `Add one of: ${list}.`]
  const mend = options.length > 0 ? `Use one of: ${list}.` : 'Use one of the forms described.'
  return ['is not one of the values known here', mend]
}

function optionsOf(issue: IssueOf<'invalid_union'>): readonly string[] {
  return 'options' in issue && Array.isArray(issue.options) ? issue.options.map(String) : []
}

function describeLimit(origin: string, limit: number, end: 'least' | 'most'): Described {
  if (origin === 'string') {
    return end === 'least' ? ['must not be empty', 'Write it out.'] : [`is longer than ${limit} characters`, 'Shorten it.']
  }
  if (origin === 'array') {
    const mend = end === 'least' ? 'Add what is missing.' : 'Take some away.'
    return [`must have at ${end} ${limit} ${limit === 1 ? 'entry' : 'entries'}`, mend]
  }
  return [`must be at ${end} ${limit}`, end === 'least' ? `Raise it to ${limit} or more.` : `Lower it to ${limit} or less.`]
}
