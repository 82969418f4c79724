import type { EntryList, Lexicon } from '#src/content/lexicon.ts'
import { normaliseText } from '../reading/normalise-text.ts'

/** Small letters without accents, single blanks, no dots behind letters ("a.m.", "mon."): what entries are compared with. */
export function tidyEntry(written: string): string {
  return normaliseText(written).replaceAll(/(?<=\p{L})\./gu, '').replaceAll(/\s+/gu, ' ').trim()
}

/** What may stand for a word, so that no list is looked for in the place of another. */
const placeholder = '#'
const patterns = new WeakMap<Lexicon, Map<EntryList, RegExp>>()

/** Puts a sign in the place of every word of a list; signs that are letters begin with "#". Linear in the text. */
export function replaceEntry(text: string, list: EntryList, sign: string, lexicon: Lexicon): string {
  return text.replace(patternOf(list, lexicon), sign)
}

function patternOf(list: EntryList, lexicon: Lexicon): RegExp {
  const known = patterns.get(lexicon) ?? new Map<EntryList, RegExp>()
  patterns.set(lexicon, known)
  const made = known.get(list) ?? wholeWords((lexicon.entries.get(list) ?? []).map(tidyEntry))
  known.set(list, made)
  return made
}

/** Any of these where no letter stands beside it, the first that fits. */
export function wholeWords(ways: readonly string[]): RegExp {
  const escaped = ways.map((way) => way.replaceAll(/[$()*+.?[\\\]^{|}/]/gu, String.raw`\$&`))
  return new RegExp(String.raw`(?<![\p{L}${placeholder}])(?:${escaped.join('|')})(?!\p{L})`, 'gu')
}
