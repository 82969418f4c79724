/** One rewriting of a text; `find` is global. What stands in one match is rewritten without a look at its neighbours. */
interface Rewriting {
  readonly find: RegExp
  readonly by: (match: string) => string
}

const fractions: Readonly<Record<string, string>> = { '¼': '.25', '½': '.5', '¾': '.75', '⅓': '.3', '⅔': '.7' }
const apostrophe = /[\u2018\u2019\u201B\u02BC\u00B4\u0060\u2032]/gu
// A letter with its marks, and Hangul by the run: there parts that stand alone are joined as well.
const composed = /[\p{Script=Hangul}\p{M}]+|[\0-\x7f]\p{M}+|[^\0-\x7f]\p{M}*/gu

/** In this order. Nothing here takes a look back, so that each is linear in the text. */
const rewritings: readonly Rewriting[] = [
  { find: /\r\n?|[\u2028\u2029]/gu, by: () => '\n' },
  { find: /[¼½¾⅓⅔]/gu, by: (sign) => fractions[sign] ?? sign },
  // Before the compatibility forms, which would turn the spacing acute accent into a space and a combining mark.
  { find: apostrophe, by: () => "'" },
  { find: composed, by: (letter) => letter.normalize('NFKD') },
  { find: /\p{M}/gu, by: (mark) => (isKept(mark) ? mark : '') },
  { find: composed, by: (letter) => letter.normalize('NFKC') },
  // Directional and joining marks and skin tones change how a character looks, not what it says.
  { find: /\p{Cf}|\p{Emoji_Modifier}/gu, by: () => '' },
  { find: /(?!\n)\p{Cc}/gu, by: () => ' ' },
  { find: apostrophe, by: () => "'" },
  { find: /[\u2010-\u2013\u2212]/gu, by: () => '-' },
  { find: /[\u2014\u2015]/gu, by: () => ' - ' },
  { find: /<\/?[a-z][^<>]{0,60}>/giu, by: () => ' ' },
  { find: /\\/gu, by: () => '/' },
  { find: /[^\P{Nd}0-9]/gu, by: asciiDigit },
]

/** One way of writing for what looks or means the same: width, case, accents, digits of any script, dashes, quotes. */
export function normaliseText(text: string): string {
  return withSmallLetters(rewritings.reduce((plain, { find, by }) => plain.replace(find, by), text))
}

/** Letters lose their accents first, and of those that are left none changes its length. */
function withSmallLetters(plain: string): string {
  return plain.toLowerCase()
}

/** Where a stretch of the normalised text stood in the text as typed. */
export type OriginOf = (start: number, end: number) => { readonly start: number; readonly end: number }

/**
 * Follows every unit of {@link normaliseText} back to the text as typed, through the very same rewritings. Costs a few times
 * what normalising does, and so is asked for only where something is to be shown.
 */
export function traceOrigins(text: string): OriginOf {
  let plain = text
  let starts = Array.from({ length: text.length }, (_, unit) => unit)
  let ends = starts.map((unit) => unit + 1)
  for (const { find, by } of rewritings) {
    if (plain.search(find) < 0) continue
    const [newStarts, newEnds, pieces]: [number[], number[], string[]] = [[], [], []]
    let at = 0
    const keep = (end: number): void => {
      pieces.push(plain.slice(at, end))
      for (; at < end; at += 1) {
        newStarts.push(starts[at] ?? 0)
        newEnds.push(ends[at] ?? 0)
      }
    }
    for (const match of plain.matchAll(find)) {
      keep(match.index)
      const after = match.index + match[0].length
      const rewritten = by(match[0])
      pieces.push(rewritten)
      for (let unit = 0; unit < rewritten.length; unit += 1) {
        newStarts.push(starts[at] ?? 0)
        newEnds.push(ends[after - 1] ?? 0)
      }
      at = after
    }
    keep(plain.length)
    plain = pieces.join('')
    starts = newStarts
    ends = newEnds
  }
  return (start, end) => ({ start: starts[start] ?? text.length, end: end > start ? (ends[end - 1] ?? text.length) : (starts[start] ?? text.length) })
}

/** Accents, variation selectors and keycaps go; the vowel signs of other scripts are letters and stay. */
function isKept(mark: string): boolean {
  const code = mark.codePointAt(0) ?? 0
  return code > 0x036f && (code < 0x1ab0 || code > 0x1dff) && (code < 0xfe00 || code > 0xfe0f) && code !== 0x20e3
}

/** Unicode gives every script its ten digits in a row, from a code point that ends in 0 or 6. */
function asciiDigit(digit: string): string {
  const code = digit.codePointAt(0) ?? 0
  const row = code & ~0xf
  const zero = /\p{Nd}/u.test(String.fromCodePoint(row)) ? row : row + 6
  const value = code - zero
  return value >= 0 && value <= 9 ? String(value) : ' '
}
