import { normaliseText } from './normalise-text.ts'

export type Token =
  | ({ readonly kind: 'word' } & Piece)
  | ({ readonly kind: 'number'; readonly value: number } & Piece)
  /** A break: `.!?;` and a new line end a sentence, `,:()-` a clause. */
  | ({ readonly kind: 'mark' } & Piece)

interface Piece {
  readonly text: string
  readonly isGlued: boolean
  /** Where it stands in the normalised text; words of one spelling ("dont") stand in the same place. */
  readonly start: number
  readonly end: number
}
type Place = Omit<Piece, 'text'>

// Alternatives in order: clock time, number, word, picture or sign that acts as a word, break.
const piece = new RegExp(
  [
    String.raw`(?<clock>\d{1,2}:\d{2}(?!\d))`,
    String.raw`(?<number>\d+(?:[.,]\d+)?|(?<![\p{L}\p{N}.])\.\d+)`,
    String.raw`(?<word>\p{L}[\p{L}\p{M}\p{N}']*)`,
    String.raw`(?<sign>\p{Extended_Pictographic}|[/+<>=&%°×-])`,
    String.raw`(?<mark>[.!?;,:()\n…])`,
  ].join('|'),
  'gu',
)

/** Cuts a text into words, numbers and breaks, spelt the one way the lexicon uses. */
export function tokenise(text: string, spellings: ReadonlyMap<string, string>): readonly Token[] {
  const plain = normaliseText(text)
  const tokens: Token[] = []
  let previousEnd = -1
  for (const match of plain.matchAll(piece)) {
    const place: Place = { isGlued: match.index === previousEnd, start: match.index, end: match.index + match[0].length }
    previousEnd = place.end
    const { clock, number, word, sign, mark } = match.groups ?? {}
    if (clock !== undefined) tokens.push({ kind: 'word', text: '#clock', ...place })
    else if (number !== undefined) tokens.push(numberToken(number, place))
    else if (word !== undefined) tokens.push(...spell(word, spellings, place))
    else if (sign === '-') pushDash(tokens, plain, place)
    else if (sign !== undefined) tokens.push(...spell(sign, spellings, place))
    else tokens.push({ kind: 'mark', text: mark === '…' ? '.' : (mark ?? '.'), ...place })
  }
  return joinDashes(tokens)
}

function numberToken(written: string, place: Place): Token {
  // A comma before three digits parts thousands; before one or two it is a decimal mark in much of the world.
  const value = Number(/,\d{3}$/u.test(written) ? written.replace(',', '') : written.replace(',', '.'))
  return { kind: 'number', text: written, value, ...place }
}

function spell(word: string, spellings: ReadonlyMap<string, string>, place: Place): readonly Token[] {
  const bare = word.includes("'") ? word.replace(/'/gu, '') : word
  const known = spellings.get(word) ?? spellings.get(bare)
  if (known !== undefined) return wordTokens(known, place)
  const suffix = word.length > 2 && word.at(-2) === "'" ? spellings.get(word.slice(-2)) : undefined
  return wordTokens(suffix === undefined ? bare : `${word.slice(0, -2).replace(/'/gu, '')} ${suffix}`, place)
}

function wordTokens(text: string, place: Place): readonly Token[] {
  if (!text.includes(' ')) return [{ kind: 'word', text, ...place }]
  return text.split(' ').filter((word) => word !== '')
    .map((word, index) => ({ kind: 'word', text: word, ...place, isGlued: place.isGlued && index === 0 }))
}

/** A hyphen inside a word only joins; before a digit it may be a minus; with space around it is a break. */
function pushDash(tokens: Token[], plain: string, place: Place): void {
  const before = plain[place.start - 1] ?? ' '
  const after = plain[place.end] ?? ' '
  const joinsLetters = /\p{L}/u.test(before) && /[\p{L}\p{N}]/u.test(after)
  if (joinsLetters) return
  tokens.push({ kind: 'mark', text: /\d/u.test(after) && !/\d/u.test(before) ? '-' : '- ', ...place })
}

/** Between two numbers a dash is a range and a word of the sentence; a minus makes its number negative. */
function joinDashes(tokens: readonly Token[]): readonly Token[] {
  const joined: Token[] = []
  for (const token of tokens) {
    const last = joined.at(-1)
    const isDash = last?.kind === 'mark' && last.text.startsWith('-')
    if (token.kind === 'number' && isDash) {
      joined.pop()
      if (joined.at(-1)?.kind === 'number') joined.push({ ...last, kind: 'word', text: '-', isGlued: false }, token)
      else if (last.text === '-') joined.push({ ...token, start: last.start, value: -token.value })
      else joined.push(last, token)
    } else joined.push(token)
  }
  return joined.map((token) => (token.kind === 'mark' && token.text === '- ' ? { ...token, text: '-' } : token))
}

const sentenceEnds: ReadonlySet<string> = new Set(['.', '!', '?', ';', '\n'])

export function endsSentence(token: Token): boolean {
  return token.kind === 'mark' && sentenceEnds.has(token.text)
}
