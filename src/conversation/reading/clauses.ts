import type { Found, Occurrence } from './find-phrases.ts'

export interface Clause {
  readonly start: number
  readonly end: number
}

const cut = new WeakMap<Found, readonly Clause[]>()

/** The text cut at every mark and at every contrast ("but"); cut once for each text, since every reader asks for it. */
export function clausesOf(found: Found): readonly Clause[] {
  const known = cut.get(found)
  if (known !== undefined) return known
  const clauses = cutClauses(found)
  cut.set(found, clauses)
  return clauses
}

function cutClauses(found: Found): readonly Clause[] {
  const clauses: Clause[] = []
  let start = 0
  const close = (end: number): void => {
    if (end > start) clauses.push({ start, end })
  }
  found.tokens.forEach((token, index) => {
    const contrast = found.startingAt('contrast', index)
    if (token.kind !== 'mark' && contrast === undefined) return
    close(index)
    start = contrast?.end ?? index + 1
  })
  close(found.tokens.length)
  return clauses
}

// Whoever writes more than this without a mark says more than one thing.
const longestAnswer = 24

/** Whether a phrase is all that its clause says, apart from words that fill. */
export function isWhole(it: Occurrence, clause: Clause, found: Found): boolean {
  if (it.start < clause.start || it.end > clause.end || clause.end - clause.start > longestAnswer) return false
  return isFilled(clause.start, it.start, found) && isFilled(it.end, clause.end, found)
}

function isFilled(start: number, end: number, found: Found): boolean {
  let index = start
  while (index < end) {
    const filler = found.startingAt('filler', index)
    if (filler === undefined || filler.end > end) return false
    index = filler.end
  }
  return true
}

/** The first clause that says this and nothing else. */
export function findWhole(list: string, found: Found): Occurrence | undefined {
  const occurrences = found.all(list)
  if (occurrences.length === 0) return undefined
  const clauses = clausesOf(found)
  let at = 0
  return occurrences.find((it) => {
    while ((clauses[at]?.end ?? Infinity) <= it.start) at += 1
    const clause = clauses[at]
    return clause !== undefined && isWhole(it, clause, found)
  })
}

export function hasWhole(list: string, found: Found): boolean {
  return findWhole(list, found) !== undefined
}

/** The number of the clause that each token belongs to. */
export function clauseNumbers(found: Found): readonly number[] {
  const numbers: number[] = []
  clausesOf(found).forEach(({ start, end }, number) => {
    for (let index = start; index < end; index += 1) numbers[index] = number
  })
  return numbers
}
