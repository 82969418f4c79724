import { opensClause } from './clause-before.ts'
import { endsSentence, type Token } from './token.ts'
import type { MarkedText } from './marked-text.ts'

/**
 * The number of the segment that each token belongs to: what is said of one subject. A piece that only names a place
 * ("my arm, my leg and my face") belongs to its neighbour.
 */
export function segmentsOf(text: MarkedText): readonly number[] {
  const { tokens } = text.found
  const pieces: Piece[] = []
  tokens.forEach((token, index) => {
    const isContrast = text.found.startingAt('contrast', index) !== undefined
    if (index > 0 && token.kind !== 'mark' && !isContrast && !opensClause(index, text)) return
    // "…, I am dizzy": the comma goes with the clause that it opens; alone it would name places only, and join both sides.
    if (pieces.at(-1)?.start === index - 1 && isComma(tokens[index - 1]) && token.kind !== 'mark') return
    pieces.push({ start: index, sentence: text.sentenceOf(index), segment: pieces.length })
  })
  joinPlaces(pieces, text)
  const segments: number[] = []
  pieces.forEach((piece, at) => {
    const end = pieces[at + 1]?.start ?? tokens.length
    for (let index = piece.start; index < end; index += 1) segments.push(piece.segment)
  })
  return segments
}

function isComma(token: Token | undefined): boolean {
  return token?.kind === 'mark' && !endsSentence(token)
}

interface Piece {
  readonly start: number
  readonly sentence: number
  segment: number
}

function joinPlaces(pieces: Piece[], text: MarkedText): void {
  const endOf = (at: number): number => pieces[at + 1]?.start ?? text.found.tokens.length
  const isBare = pieces.map((piece, at) => namesOnlyPlaces(piece.start, endOf(at), text))
  pieces.forEach((piece, at) => {
    const last = pieces[at - 1]
    if (last === undefined || last.sentence !== piece.sentence) return
    const isContrast = text.found.startingAt('contrast', piece.start) !== undefined
    if (!isContrast && (isBare[at] || isBare[at - 1])) piece.segment = last.segment
  })
}

const joiningLists = ['transparent', 'subject', 'or'] as const

/** A mark that opens the piece is passed over; an ending one belongs to the sentence before. */
function namesOnlyPlaces(start: number, end: number, text: MarkedText): boolean {
  const { found } = text
  let index = end
  while (index > start) {
    const token = found.tokens[index - 1]
    const item = text.itemEndingAt(index)
    if (item !== undefined && !text.isSymptomWord(index - 1)) index = item.start
    else if (token?.kind === 'mark' && index - 1 === start && !endsSentence(token)) index -= 1
    else if (joiningLists.some((list) => found.endingAt(list, index) !== undefined)) index -= 1
    else return false
  }
  return true
}
