import type { Found, Occurrence } from './find-phrases.ts'
import { placeLists, symptomLists, watchLists } from './sign-rules.ts'
import { endsSentence } from './token.ts'

/** A text with the phrases that count: inside a longer phrase, or an idiom, a word means something else. */
export interface MarkedText {
  readonly found: Found
  readonly symptoms: readonly Occurrence[]
  readonly places: readonly Occurrence[]
  /** Words that are no sign alone. */
  readonly watched: readonly Occurrence[]
  /** In a turn of speech that means something else than its words. */
  isHarmless(index: number): boolean
  /** The same, or in one that looks like a denial and is none, or that says a part of the body is well. */
  isIdiom(index: number): boolean
  /** Whether the token belongs to a turn of speech like "no doubt" that ends at or before `start`. */
  deniesNothing(index: number, start: number): boolean
  isDoubtful(index: number): boolean
  /** A symptom or a place that ends just before this token. */
  itemEndingAt(end: number): Occurrence | undefined
  /** Whether a word that carries a denial on ends just before this token. */
  isTransparentUntil(end: number): boolean
  /** Whether the token is a symptom's own word. */
  isSymptomWord(index: number): boolean
  /** Whether a phrase of a symptom or a place goes on here. */
  isInside(index: number): boolean
  /** Which sentence a token belongs to. */
  sentenceOf(index: number): number
}

const transparentLists = ['transparent', 'carrier', 'degree', 'or', 'subject', 'filler'] as const

export function markText(found: Found): MarkedText {
  const idioms = byToken([...found.all('harmless'), ...found.all('all-well')])
  const harmless = byToken(found.all('harmless'))
  const notDenials = byToken(found.all('not-a-denial'))
  const doubtful = byToken(found.all('doubtful'))
  const isFree = (it: Occurrence): boolean =>
    ownTokens(it).every((index) => (idioms.get(index) ?? []).every((idiom) => covers(it, idiom)))
  const symptoms = longestOnly(symptomLists.flatMap((name) => found.all(name)).filter(isFree))
  const places = longestOnly(placeLists.flatMap((name) => found.all(name)).filter(isFree))
  const symptomWords = new Set(symptoms.flatMap(ownTokens))
  const watched = longestOnly(watchLists.flatMap((name) => found.all(name)).filter(isFree))
  const ends = new Map([...places, ...symptoms].map((it) => [it.end, it]))
  const transparent = new Set(transparentLists.flatMap((name) => found.all(name)).map(({ end }) => end))
  const inside = new Set([...symptoms, ...places].flatMap((it) => ownTokens(it).filter((index) => index > it.start)))
  let sentence = 0
  const sentences = found.tokens.map((token) => (endsSentence(token) ? sentence++ : sentence))
  return {
    found,
    symptoms,
    places,
    watched,
    isHarmless: (index) => harmless.has(index),
    isIdiom: (index) => idioms.has(index) || notDenials.has(index),
    deniesNothing: (index, start) => harmless.has(index) || (notDenials.get(index) ?? []).some(({ end }) => end <= start),
    isDoubtful: (index) => doubtful.has(index),
    isTransparentUntil: (end) => transparent.has(end),
    itemEndingAt: (end) => ends.get(end),
    isSymptomWord: (index) => symptomWords.has(index),
    isInside: (index) => inside.has(index),
    sentenceOf: (index) => sentences[index] ?? sentence,
  }
}

function byToken(occurrences: readonly Occurrence[]): ReadonlyMap<number, readonly Occurrence[]> {
  const map = new Map<number, Occurrence[]>()
  for (const it of occurrences) {
    for (const index of ownTokens(it)) {
      const here = map.get(index)
      if (here === undefined) map.set(index, [it])
      else here.push(it)
    }
  }
  return map
}

/** The tokens of an occurrence that are its own words and not a gap's. */
export function ownTokens(it: Occurrence): readonly number[] {
  const own: number[] = []
  for (let index = it.start; index < it.end; index += 1) if (!it.gaps.includes(index)) own.push(index)
  return own
}

/** Whether `a` is the longer phrase and `b` lies in it, not merely in its gap. */
function covers(a: Occurrence, b: Occurrence): boolean {
  const isInside = a.start <= b.start && a.end >= b.end && a.end - a.start > b.end - b.start
  return isInside && ownTokens(b).every((index) => !a.gaps.includes(index))
}

/** The longest phrase wins. */
export function longestOnly(occurrences: readonly Occurrence[]): readonly Occurrence[] {
  const sorted = [...occurrences].sort((a, b) => a.start - b.start || b.end - a.end)
  const longest = sorted.reduce((most, it) => Math.max(most, it.end - it.start), 0)
  return sorted.filter((it, index) => {
    for (let other = index - 1; other >= 0; other -= 1) {
      const earlier = sorted[other]
      if (earlier === undefined || earlier.start < it.start - longest) break
      if (covers(earlier, it)) return false
    }
    return true
  })
}
