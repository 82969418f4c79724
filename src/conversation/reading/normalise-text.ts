const fractions: Readonly<Record<string, string>> = { '¼': '.25', '½': '.5', '¾': '.75', '⅓': '.3', '⅔': '.7' }
const anyFraction = /[¼½¾⅓⅔]/gu
// Directional and joining marks and skin tones change how a character looks, not what it says.
const invisible = /\p{Cf}|\p{Emoji_Modifier}/gu
const controlCharacter = /(?!\n)\p{Cc}/gu
const apostrophe = /[\u2018\u2019\u201B\u02BC\u00B4\u0060\u2032]/gu
const shortDash = /[\u2010-\u2013\u2212]/gu
const longDash = /[\u2014\u2015]/gu
const lineEnd = /\r\n?|[\u2028\u2029]/gu
const markupTag = /<\/?[a-z][^<>]{0,60}>/giu

/** One way of writing for what looks or means the same: width, case, accents, digits of any script, dashes, quotes. */
export function normaliseText(text: string): string {
  const plain = text
    .replace(lineEnd, '\n')
    .replace(anyFraction, (sign) => fractions[sign] ?? sign)
    // Before NFKC, which would turn the spacing acute accent into a space and a combining mark.
    .replace(apostrophe, "'")
    .normalize('NFKD')
    .replace(/\p{M}/gu, (mark) => (isKept(mark) ? mark : ''))
    .normalize('NFKC')
    .replace(invisible, '')
    .replace(controlCharacter, ' ')
    .replace(apostrophe, "'")
    .replace(shortDash, '-')
    .replace(longDash, ' - ')
    .replace(markupTag, ' ')
    .replace(/\\/gu, '/')
    .toLowerCase()
  return plain.replace(/[^\P{Nd}0-9]/gu, asciiDigit)
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
