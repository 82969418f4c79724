import { brandAs, type SignId } from '#src/domain/identifier.ts'
import type { RedFlag } from '#src/domain/triage.ts'
import { combineSigns } from './combine-signs.ts'
import type { Occurrence } from './find-phrases.ts'
import { traceOrigins, type OriginOf } from './normalise-text.ts'
import type { Ground, SignsRead } from './read-signs.ts'
import type { SignName } from './signs.ts'
import type { Token } from './token.ts'

/** The words that made a sign, cut from the text as it was typed: for the chart, and never for a log. */
export interface MatchedWords {
  readonly sign: SignId
  readonly words: string
}

/** In characters; what lies further apart is shown in pieces. */
export const longestMatch = 80
const between = ' … '
/** What lies no further apart than a short word or two is shown with what stands between. */
const nearby = 12

/** One for each sign that is raised or asked about, in their order. */
export function matchedWords({ sure, unsure, grounds }: SignsRead, tokens: readonly Token[], text: string): readonly MatchedWords[] {
  if (sure.length + unsure.length === 0) return []
  const originOf = traceOrigins(text)
  const match = ({ sign }: RedFlag, said: readonly Ground[]): MatchedWords => ({ sign, words: cut(said, tokens, text, originOf) })
  return [
    ...sure.map((flag) => match(flag, groundsOf(flag.sign, grounds))),
    ...unsure.map((flag) => match(flag, grounds.filter((it) => isAskedAbout(flag, it)).slice(0, 1))),
  ]
}

function isAskedAbout({ sign }: RedFlag, ground: Ground): boolean {
  return !ground.isSure && ground.sign !== null && brandAs<SignId>(ground.sign) === sign
}

/**
 * The least that raises a sign: whatever may be left unsaid without losing the sign is left out, the last first and many at
 * once where that goes. So it holds for signs that only several symptoms together are, and knows no rule of its own.
 */
function groundsOf(sign: SignId, grounds: readonly Ground[]): readonly Ground[] {
  const own = grounds.find((it) => it.isSure && it.sign === sign)
  if (own !== undefined && raised([own]).has(sign)) return [own]
  let needed = firstOfEach(grounds.filter((it) => it.isSure || it.isSureSymptom))
  for (let size = needed.length; size >= 1; size = Math.floor(size / 2)) {
    for (let end = needed.length; end > 0; end -= size) {
      const fewer = needed.filter((_ground, index) => index < end - size || index >= end)
      if (raised(fewer).has(sign)) needed = fewer
    }
  }
  return needed
}

/** What says the same again raises nothing more, and a long message may say it a hundred times. */
function firstOfEach(grounds: readonly Ground[]): readonly Ground[] {
  const kinds = new Map<string, Ground>()
  for (const it of grounds) {
    const kind = [it.symptom.list, it.sign, it.isSure, it.isSureSymptom].join(' ')
    if (!kinds.has(kind)) kinds.set(kind, it)
  }
  return [...kinds.values()]
}

function raised(grounds: readonly Ground[]): ReadonlySet<string> {
  const signs = new Set(grounds.flatMap(({ sign, isSure }): readonly SignName[] => (isSure && sign !== null ? [sign] : [])))
  return combineSigns(signs, new Set(grounds.filter((it) => it.isSureSymptom).map(({ symptom }) => symptom.list)))
}

interface Span {
  readonly start: number
  readonly end: number
}

function cut(grounds: readonly Ground[], tokens: readonly Token[], text: string, originOf: OriginOf): string {
  const spans = grounds.flatMap(({ symptom, companions }) => [symptom, ...companions])
    .map((it) => spanOf(it, tokens, originOf))
    .toSorted((a, b) => a.start - b.start || b.end - a.end)
  const [first] = spans
  if (first === undefined) return ''
  const end = Math.max(...spans.map((span) => span.end))
  if (end - first.start <= longestMatch) return text.slice(first.start, end)
  return shorten(apart(spans).map((span) => text.slice(span.start, span.end)).join(between))
}

function spanOf(it: Occurrence, tokens: readonly Token[], originOf: OriginOf): Span {
  return originOf(tokens[it.start]?.start ?? 0, tokens[it.end - 1]?.end ?? 0)
}

/** Spans that overlap or all but touch are one. */
function apart(spans: readonly Span[]): readonly Span[] {
  const joined: Span[] = []
  for (const span of spans) {
    const last = joined.at(-1)
    if (last === undefined || span.start > last.end + nearby) joined.push(span)
    else joined[joined.length - 1] = { start: last.start, end: Math.max(last.end, span.end) }
  }
  return joined
}

/** A pair of surrogates is not torn apart. */
function shorten(words: string): string {
  return words.length <= longestMatch ? words : `${words.slice(0, longestMatch - 1).replace(/[\uD800-\uDBFF]$/, '')}…`
}
