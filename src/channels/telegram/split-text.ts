/** The Bot API's limit in UTF-16 code units, https://core.telegram.org/bots/api#sendmessage. */
export const textLimit = 4096

// Grapheme clusters are the same in every language that we may meet: Unicode Standard Annex 29.
const graphemes = new Intl.Segmenter('en', { granularity: 'grapheme' })

const breaks: readonly RegExp[] = [/\n\s*\n/g, /\n/g, /\s+/g]

/** Parts of at most `limit` units, in order, with nothing lost between them but blank parts. */
export function splitText(text: string, limit: number = textLimit): string[] {
  const parts: string[] = []
  // The API refuses a whole message for one half of a surrogate pair.
  let rest = text.replace(/\p{Surrogate}/gu, '\uFFFD')
  while (rest.length > limit) {
    const cut = findCut(rest, limit)
    parts.push(rest.slice(0, cut))
    rest = rest.slice(cut)
  }
  parts.push(rest)
  const spoken = parts.filter((part) => part.trim() !== '')
  return spoken.length === 0 ? [parts[0] ?? ''] : spoken
}

function findCut(text: string, limit: number): number {
  // One unit more than fits shows whether the limit itself is a boundary.
  const segments = graphemes.segment(text.slice(0, limit + 2))
  const isBoundary = (index: number): boolean => segments.containing(index)?.index === index
  const fits = (index: number): boolean => index <= limit && isBoundary(index)
  for (const pattern of breaks) {
    // A paragraph that ends early would leave a part nearly empty, so every break but a word's must fill half.
    const least = pattern === breaks.at(-1) ? 1 : limit / 2
    const cut = findBreaks(text.slice(0, limit + 2), pattern).findLast((index) => index >= least && fits(index))
    if (cut !== undefined) return cut
  }
  return findGraphemeCut(text, limit, isBoundary)
}

/** The places just after each break. */
function findBreaks(text: string, pattern: RegExp): number[] {
  return [...text.matchAll(pattern)].map((match) => match.index + match[0].length)
}

function findGraphemeCut(text: string, limit: number, isBoundary: (index: number) => boolean): number {
  for (let index = limit; index > 0; index -= 1) if (isBoundary(index)) return index
  // One cluster longer than a whole message: between two of its code points.
  const isLowSurrogate = /[\uDC00-\uDFFF]/.test(text.charAt(limit))
  return isLowSurrogate ? limit - 1 : limit
}
