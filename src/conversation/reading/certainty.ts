import { clauseBefore, longestClause, opensClause, type ClauseBefore, type Denial } from './clause-before.ts'
import type { Found, Occurrence } from './find-phrases.ts'
import { ownTokens, type MarkedText } from './marked-text.ts'
import { symptomLists, watchLists } from './sign-rules.ts'
import { endsSentence } from './token.ts'

/** How far a symptom is said to be there. `usual`: there as always, which only a known sign may be. */
export type Certainty = 'sure' | 'usual' | 'unsure' | 'denied'

/** Judges one symptom from the words around it. */
export function certaintyOf(it: Occurrence, text: MarkedText): Certainty {
  const before = clauseBefore(it, text)
  const denial = inGap(it, text) ?? (before.denial === null ? null : weigh(before.denial, it))
  const after = answerAfter(it, text)
  if (denial === 'denied' && text.found.startingAt('degree-after', it.end) !== undefined) return 'unsure'
  if (denial === 'denied' || after === 'denied') return hasUsedToBe(it, before, text) ? 'unsure' : 'denied'
  if (after === 'sure') return 'sure'
  if (denial === 'unsure' || isInDoubt(it, before, text)) return 'unsure'
  return inClause('usual', it, before, text) ? 'usual' : 'sure'
}

/** Whether something speaks of the client, and is not denied. */
export function isOfClient(it: Occurrence, text: MarkedText): boolean {
  return certaintyOf(it, text) !== 'denied' && !isOfOthers(it, clauseBefore(it, text), text)
}

function weigh(denial: Denial, it: Occurrence): Certainty {
  const { kind, hasDegree, strangers, hasOr, crossedComma, passedItem } = denial
  // "no numbness and dizzy": a "no" before a noun says nothing of an adjective that comes later.
  if (kind === 'no-noun' && it.form === 'says' && passedItem && !hasOr) return 'sure'
  if (strangers > 2) return 'sure'
  if (hasDegree || strangers > 0) return 'unsure'
  return kind === 'not' && crossedComma && !hasOr && it.form === 'says' ? 'unsure' : 'denied'
}

/** "The chest is not tight": the denial stands between the words of the phrase. */
function inGap(it: Occurrence, { found, isIdiom }: MarkedText): Certainty | null {
  const denies = it.gaps.some((index) =>
    // "The room will not stop spinning" denies nothing.
    !isIdiom(index) && ['not', 'no-noun'].some((list) => found.startingAt(list, index) !== undefined))
  if (!denies) return null
  return it.gaps.some((index) => found.startingAt('degree', index) !== undefined) ? 'unsure' : 'denied'
}

const marksBeforeAnswer: ReadonlySet<string> = new Set(['?', ':', '-', ',', '='])

/** "Numbness: none", "dizzy? no", "dizzy? yes". */
function answerAfter(it: Occurrence, { found }: MarkedText): Certainty | null {
  const next = found.tokens[it.end]
  const start = next !== undefined && marksBeforeAnswer.has(next.text) ? it.end + 1 : it.end
  const denied = found.startingAt('denied-after', start)
  // "I cannot see nothing": where a symptom denies something itself, a second denial without a mark belongs to it.
  const isPartOfIt = start === it.end && ownTokens(it).some((index) => found.startingAt('not', index) !== undefined)
  if (denied !== undefined && !isPartOfIt && isLast(denied.end, found)) return next?.text === ',' && it.form === 'says' ? null : 'denied'
  const zero = found.tokens[start]
  if (zero?.kind === 'number' && zero.value === 0 && isLast(start + 1, found)) return 'denied'
  return next?.text === '?' && found.startingAt('affirmed-after', start) !== undefined ? 'sure' : null
}

function isLast(end: number, { tokens }: Found): boolean {
  return tokens[end] === undefined || tokens[end]?.kind === 'mark'
}

// In these other people have a part: "my partner is violent", "everybody would be better off without me".
const symptomNames: ReadonlySet<string> = new Set([...symptomLists, ...watchLists])
const involvesOthers: ReadonlySet<string> = new Set(['being-hurt', 'self-harm'])

/**
 * "My mother is dizzy"; but "someone knocked me over", "my wife says the side of my mouth drops" and, from whoever holds the
 * client's phone, "wife here, he cannot speak" are of the client.
 */
function isOfOthers(it: Occurrence, before: ClauseBefore, text: MarkedText): boolean {
  const { found } = text
  if (!symptomNames.has(it.list) || involvesOthers.has(it.list)) return false
  if (found.all('speaks-for').length > 0) return false
  // "Cannot feel his fingers": whose they are may stand within.
  const others = found.all('other-person').filter(({ start, end }) =>
    start >= before.start && (end <= it.start || (it.gaps.includes(start) && it.gaps.includes(end - 1))) && !text.isHarmless(start))
  // "A patient" may be the beginning of "a patient of mine".
  const last = others.toSorted((a, b) => a.end - b.end).at(-1)
  if (last === undefined) return false
  const between = Array.from({ length: it.start - last.end }, (_, offset) => last.end + offset)
  return ![...between, ...ownTokens(it), it.end].some((index) => found.startingAt('first-person', index) !== undefined)
}

/** A faint, or having felt dizzy, is over when it is told of: that it has passed makes it no less of a sign. */
function isOverWhenTold(it: Occurrence): boolean {
  return it.list === 'dropped' || (it.list === 'dizzy' && it.form === 'says')
}

function isInDoubt(it: Occurrence, before: ClauseBefore, text: MarkedText): boolean {
  return ownTokens(it).some((index) => text.isDoubtful(index))
    || stands('what-if', before.start, it.start, text)
    || isOfOthers(it, before, text)
    || isAsked(it, before, text)
    || (inClause('past', it, before, text) && !growsSlowly(it, text))
    || isOpenedByPast(before, text)
    || (!isOverWhenTold(it) && isGone(it, text))
}

/** "A month ago I could, and week by week it gets weaker": what grows slowly is told by how it was before. */
function growsSlowly(it: Occurrence, { found, sentenceOf }: MarkedText): boolean {
  const sentence = sentenceOf(it.start)
  return it.list === 'weak'
    && found.all('slow').some(({ start }) => sentenceOf(start) === sentence && found.startingAt('past', start) === undefined)
}

function stands(list: string, from: number, to: number, { found, isHarmless }: MarkedText): boolean {
  if (found.all(list).length === 0) return false
  for (let index = from; index < to; index += 1) {
    const it = isHarmless(index) ? undefined : found.startingAt(list, index)
    // "Since two years ago" goes on.
    const isSince = list === 'past' && found.endingAt('reason', index) !== undefined
    const isNotUsual = list === 'usual' && found.endingAt('not', index) !== undefined
    if (it !== undefined && it.end <= to && !isSince && !isNotUsual) return true
  }
  return false
}

/** Whether a cue stands in the clause, before the symptom or after it. */
function inClause(list: string, it: Occurrence, before: ClauseBefore, text: MarkedText): boolean {
  return stands(list, before.start, it.start, text) || stands(list, it.end, clauseEnd(it.end, text), text)
}

/** "In 1987 I fell": a sentence that begins with when, right before who. After a comma something of today may follow. */
function isOpenedByPast({ start }: ClauseBefore, { found, isHarmless }: MarkedText): boolean {
  const past = found.endingAt('past', start)
  const last = past === undefined ? undefined : found.tokens[past.start - 1]
  // "Two weeks after the operation …": the operation is past, the wound is not.
  return past !== undefined && !isHarmless(past.start) && (last === undefined || endsSentence(last))
}

/** The end of the clause that goes on after a phrase; a comma does not end it for words that say when. */
function clauseEnd(from: number, text: MarkedText): number {
  let index = from
  while (index - from < longestClause) {
    const token = text.found.tokens[index]
    if (token === undefined || endsSentence(token)) break
    if (text.found.startingAt('contrast', index) || opensClause(index, text)) break
    index += 1
  }
  return index
}

function isAsked(it: Occurrence, before: ClauseBefore, text: MarkedText): boolean {
  const { found } = text
  for (let index = before.start; index < it.start; index += 1) {
    // "There is this whooshing" tells; "is this" would ask.
    if ((found.startingAt('subject', index)?.end ?? 0) > index + 1) break
    if (found.startingAt('question', index) !== undefined) return true
    if (found.startingAt('filler', index) === undefined) break
  }
  for (let end = it.end; end - it.end < longestClause; end += 1) {
    const token = found.tokens[end]
    if (token?.text === '?') return !isToldInAsking(it, before, end, text)
    if (token === undefined || token.kind === 'mark') return false
    // "My arm is numb, is that normal?": said first, asked after.
    if (found.startingAt('question', end) ?? found.startingAt('question-with-mark', end)) return false
  }
  return false
}

/** "My left lid won't lift??": two marks are astonished about what is the client's own, and ask nothing. */
function isToldInAsking(it: Occurrence, before: ClauseBefore, mark: number, { found }: MarkedText): boolean {
  if (found.tokens[mark + 1]?.text !== '?' || found.startingAt('question-with-mark', before.start) !== undefined) return false
  return Array.from({ length: mark - before.start }, (_, offset) => before.start + offset)
    .some((index) => found.startingAt('first-person', index) !== undefined)
}

function isGone(it: Occurrence, { found, isSymptomWord }: MarkedText): boolean {
  for (let index = it.end; index < it.end + 10; index += 1) {
    const token = found.tokens[index]
    if (token === undefined || token.kind === 'mark') return false
    if (found.startingAt('gone-after', index)) return found.endingAt('not', index) === undefined
    if (found.startingAt('subject', index) && !found.endingAt('carrier', index)) return false
    if (isSymptomWord(index)) return false
  }
  return false
}

/** "Not dizzy any more" denies now and tells of before; in other languages the words stand before the symptom. */
function hasUsedToBe(it: Occurrence, before: ClauseBefore, text: MarkedText): boolean {
  return text.found.startingAt('any-more', it.end) !== undefined || stands('any-more', before.start, it.start, text)
}
