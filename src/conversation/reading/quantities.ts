import type { Found, Occurrence } from './find-phrases.ts'

/** A number that may be an answer; `value` is null where it cannot be one ("12/10", "-1"). */
export interface Quantity {
  readonly value: number | null
  readonly start: number
  readonly end: number
  /** Written as so many out of ten. */
  readonly isOutOfTen: boolean
  /** Where "2 or 3" as a whole starts and ends; what stands beside it counts for both. */
  readonly startOfRange: number
  readonly endOfRange: number
}
type Single = Omit<Quantity, 'startOfRange' | 'endOfRange'>

// "And a bit", "more than", "almost": the whole number on the worse side is meant, whichever that is.
const aBit = 0.5
const endOfScale = 10

/** The numbers of a text, save those that count something else ("10 seconds", "set 2", "at 18:00"). */
export function readQuantities(found: Found, numbers: ReadonlyMap<string, number>): readonly Quantity[] {
  const taken = new Set(['other-number', 'scale', 'harmless'].flatMap((list) => found.all(list)).flatMap(spanOf))
  const quantities: Single[] = []
  let index = 0
  while (index < found.tokens.length) {
    const quantity = taken.has(index) || isCode(index, found) ? null : quantityAt(index, found, numbers)
    if (quantity !== null) quantities.push(quantity)
    index = Math.max(index + 1, quantity?.end ?? 0)
  }
  return withRanges(quantities, found)
}

function withRanges(quantities: readonly Single[], found: Found): readonly Quantity[] {
  const isRange = quantities.map((it, at) => quantities[at + 1]?.start === it.end + 1 && found.startingAt('range', it.end) !== undefined)
  return quantities.map(({ value, start, end, isOutOfTen }, at) => ({
    value,
    start,
    end,
    isOutOfTen,
    startOfRange: isRange[at - 1] === true ? (quantities[at - 1]?.start ?? start) : start,
    endOfRange: isRange[at] === true ? (quantities[at + 1]?.end ?? end) : end,
  }))
}

function spanOf(it: Occurrence): readonly number[] {
  return Array.from({ length: it.end - it.start }, (_, offset) => it.start + offset)
}

/** Digits grown together with letters ("4a", "3D") are a name, unless the letters only blur them ("4ish"). */
function isCode(index: number, found: Found): boolean {
  const next = found.tokens[index + 1]
  if (next?.kind !== 'word' || !next.isGlued || !/^\p{L}/u.test(next.text)) return false
  return found.startingAt('number-suffix', index + 1) === undefined
}

function numberAt(index: number, found: Found, numbers: ReadonlyMap<string, number>): number | null {
  const token = found.tokens[index]
  if (token?.kind === 'number') return token.value
  return token?.kind === 'word' ? (numbers.get(token.text) ?? null) : null
}

interface LongNumber {
  readonly words: readonly string[]
  readonly value: number
}

type LongNumbers = ReadonlyMap<string, readonly LongNumber[]>

const longNumbers = new WeakMap<ReadonlyMap<string, number>, LongNumbers>()

/** Numbers of several words, "half a dozen", which the lexicon spells with spaces; by their first word. */
function longNumbersIn(numbers: ReadonlyMap<string, number>): LongNumbers {
  const known = longNumbers.get(numbers)
  if (known !== undefined) return known
  const made = new Map<string, LongNumber[]>()
  for (const [written, value] of numbers) {
    const words = written.split(' ')
    const first = words[0] ?? ''
    if (words.length > 1) made.set(first, [...(made.get(first) ?? []), { words, value }])
  }
  longNumbers.set(numbers, made)
  return made
}

function longNumberAt(index: number, found: Found, numbers: ReadonlyMap<string, number>): { value: number; end: number } | null {
  const ofWord = longNumbersIn(numbers).get(found.tokens[index]?.text ?? '')
  const long = ofWord?.find(({ words }) => words.every((word, offset) => found.tokens[index + offset]?.text === word))
  return long === undefined ? null : { value: long.value, end: index + long.words.length }
}

function quantityAt(index: number, found: Found, numbers: ReadonlyMap<string, number>): Single | null {
  const long = longNumberAt(index, found, numbers)
  const stated = long?.value ?? numberAt(index, found, numbers)
  if (stated === null) return null
  const after = long?.end ?? index + 1
  const fraction = found.startingAt('fraction-after', after)
  const more = found.endingAt('more-than', index)
  const less = found.endingAt('less-than', index)
  const isNegative = stated < 0 || found.endingAt('minus', index) !== undefined
  // "Never above 3" is a "less than" with an "above" in it.
  const isMore = fraction !== undefined || (more !== undefined && less === undefined)
  // "More than 10" is still 10 on the scale.
  const atMost = stated - (less === undefined ? 0 : aBit)
  const value = isMore && stated <= endOfScale ? Math.min(stated + aBit, endOfScale) : atMost
  const end = fraction?.end ?? after
  const outOf = found.startingAt('out-of', end)
  const whole = outOf === undefined ? null : numberAt(outOf.end, found, numbers)
  if (outOf === undefined || whole === null) {
    return { value: isNegative ? null : Math.max(value, 0), start: index, end, isOutOfTen: false }
  }
  const isOutOfTen = whole === endOfScale
  const isReadable = isOutOfTen && !isNegative && stated <= endOfScale
  return { value: isReadable ? Math.max(value, 0) : null, start: index, end: outOf.end + 1, isOutOfTen }
}
