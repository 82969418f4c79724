import type { Occurrence } from './find-phrases.ts'
import type { MarkedText } from './marked-text.ts'

/** What stands before a phrase in its clause, read backwards. */
export interface ClauseBefore {
  /** The first token of the clause. */
  readonly start: number
  /** The nearest word that denies. */
  readonly denial: Denial | null
}

export interface Denial {
  /** `no-noun` denies what one has ("no numbness"), `not` anything. */
  readonly kind: 'no-noun' | 'not'
  /** "not very", "not much" deny only in part. */
  readonly hasDegree: boolean
  /** Words in between of which we do not know whether they carry the denial on. */
  readonly strangers: number
  readonly hasOr: boolean
  readonly crossedComma: boolean
  /** Another symptom stands in between. */
  readonly passedItem: boolean
}

/** In tokens; nobody's clause is longer, and looking further would cost more than it tells. */
export const longestClause = 24

/**
 * Walks back from a phrase to where its clause begins: a mark, a contrast ("but"), a reason ("because"), a new subject
 * ("… and I am"). A comma is crossed where it parts the items of a list: "no numbness, tingling or weakness".
 */
export function clauseBefore(it: Occurrence, text: MarkedText): ClauseBefore {
  const { found } = text
  // A verb of its own after "and" begins a clause, where a language has no "I" that would show it.
  if (it.form === 'says' && found.endingAt('new-clause', it.start) !== undefined) return { start: it.start, denial: null }
  let [hasDegree, strangers, crossedComma, passedItem] = [false, 0, false, false]
  let hasOr = found.startingAt('or', it.end) !== undefined
  let denial: Denial | null = null
  let index = it.start
  while (index > 0 && it.start - index < longestClause) {
    const token = found.tokens[index - 1]
    if (token === undefined) break
    if (token.kind === 'mark') {
      const joinsList = token.text === ',' && strangers === 0 && text.itemEndingAt(index - 1) !== undefined
      if (!joinsList) break
      crossedComma = true
      index -= 1
      continue
    }
    const negation = negationEndingAt(index, it.start, text)
    if (negation !== null) {
      // "No my hand is numb": an answer to what was asked, and then a statement. Where "no" is "not" as well, it denies.
      if (negation.kind === 'no-noun' && found.startingAt('says-no', negation.start) && found.startingAt('subject', index)) break
      denial ??= { kind: negation.kind, hasDegree, strangers, hasOr, crossedComma, passedItem }
      index = negation.start
      continue
    }
    if (found.endingAt('contrast', index) ?? found.endingAt('reason', index)) break
    if (opensClause(index - 1, text)) {
      index -= 1
      break
    }
    const item = text.itemEndingAt(index)
    hasDegree ||= found.endingAt('degree', index) !== undefined
    hasOr ||= found.endingAt('or', index) !== undefined
    passedItem ||= item !== undefined && text.isSymptomWord(index - 1)
    if (item === undefined && !text.isTransparentUntil(index)) strangers += 1
    index = item !== undefined && item.start < index ? item.start : index - 1
  }
  return { start: Math.max(index, 0), denial }
}

/** Whether a new clause begins at a subject that no verb of thinking or preposition before it carries on. */
export function opensClause(index: number, { found, isInside }: MarkedText): boolean {
  if (isInside(index) || found.startingAt('subject', index) === undefined || index === 0) return false
  const isCarried = ['carrier', 'not', 'no-noun'].some((list) => found.endingAt(list, index) !== undefined)
  return !isCarried
}

/** A word that denies, unless it is part of a symptom ("can't feel my hand") or of a turn of speech ("no doubt"). */
function negationEndingAt(end: number, until: number, text: MarkedText): { kind: Denial['kind']; start: number } | null {
  for (const kind of ['not', 'no-noun'] as const) {
    const negation = text.found.endingAt(kind, end)
    if (negation === undefined || text.deniesNothing(end - 1, until)) continue
    if (text.isSymptomWord(end - 1)) continue
    return { kind, start: negation.start }
  }
  const token = text.found.tokens[end - 1]
  return token?.kind === 'number' && token.value === 0 ? { kind: 'no-noun', start: end - 1 } : null
}
