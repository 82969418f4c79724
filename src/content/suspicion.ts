import { z } from 'zod'
import { describeIssue } from './describe-issue.ts'
import type { Problem } from './problem.ts'

/** How much each clue speaks for something being wrong, learnt from labelled messages (`npm run learn`). */
export interface Suspicion {
  /** Log odds from which on the bot asks. */
  readonly threshold: number
  readonly bias: number
  /** By clue: a word, the beginning of one, two words beside each other or with one between. */
  readonly weights: ReadonlyMap<string, number>
}

/** Suspects nothing. */
export const noSuspicion: Suspicion = { threshold: Infinity, bias: 0, weights: new Map() }

const number = z.number()
const schema = z
  .strictObject({ language: z.string(), threshold: number, bias: number, weights: z.record(z.string().min(1), number) })
  .transform(({ weights, ...rest }) => ({ ...rest, weights: new Map(Object.entries(weights)) }))

export type SuspicionReading =
  | { readonly kind: 'read'; readonly suspicion: Suspicion }
  | { readonly kind: 'unusable'; readonly problem: Problem }

const mend = 'Run npm run learn, which writes it anew.'

/** Reads one language's `suspicion/*.json`. It is written by a program, so that one problem is enough to say. */
export function readSuspicion(text: string, file: string, language: string): SuspicionReading {
  const refuse = (path: string, message: string): SuspicionReading => ({ kind: 'unusable', problem: { file, line: 1, path, message, mend } })
  let written: unknown
  try {
    written = JSON.parse(text)
  } catch {
    return refuse('', 'is no JSON')
  }
  const parsed = schema.safeParse(written)
  if (!parsed.success) {
    const [issue] = parsed.error.issues.flatMap((one) => describeIssue(one, () => undefined))
    return refuse(issue?.path.join('.') ?? '', issue?.message ?? 'has another shape')
  }
  if (parsed.data.language !== language) return refuse('language', 'is another language than its file is named after')
  const { threshold, bias, weights } = parsed.data
  return { kind: 'read', suspicion: { threshold, bias, weights } }
}
