import type { z } from 'zod'
import { InputError } from '../input-error.ts'
import { readInputFile } from '../read-input-file.ts'
import { answersSchema, type Answers } from './answers-schema.ts'

/** One script, or one a line where the file ends in `.jsonl`; all are checked before the first is played. */
export function readAnswers(path: string): { readonly scripts: readonly Answers[]; readonly isLines: boolean } {
  const text = readInputFile(path)
  if (!path.endsWith('.jsonl')) return { scripts: [parseScript(text, path)], isLines: false }
  const lines = text.split('\n').flatMap((line, index) => (line.trim() === '' ? [] : [{ line, place: `${path}:${index + 1}` }]))
  return { scripts: lines.map(({ line, place }) => parseScript(line, place)), isLines: true }
}

function parseScript(text: string, place: string): Answers {
  const read = answersSchema.safeParse(parseJson(text, place))
  if (read.success) return read.data
  const problems = read.error.issues.map((issue) => `${pathOf(issue)} ${describe(issue)}`)
  throw new InputError(`${place}: ${problems.join('; ')}`)
}

function parseJson(text: string, place: string): unknown {
  try {
    return JSON.parse(text)
  } catch (error) {
    throw new InputError(`${place}: this is no JSON: check commas, quotes and brackets`, { cause: error })
  }
}

type Issue = z.core.$ZodIssue

function pathOf({ path }: Issue): string {
  const written = path.map((part, index) => (typeof part === 'number' ? `[${part}]` : `${index > 0 ? '.' : ''}${String(part)}`)).join('')
  return written === '' ? 'the script' : written
}

function describe(issue: Issue): string {
  if (issue.code === 'unrecognized_keys') return `has keys that are not known: ${issue.keys.join(', ')}. Remove them`
  return `is not usable: ${issue.message}`
}
