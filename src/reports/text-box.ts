/** A rectangle of the picture, in pixels. */
export interface Box {
  readonly x: number
  readonly y: number
  readonly width: number
  readonly height: number
}

export type Anchor = 'start' | 'middle' | 'end'

export interface PlacedText {
  readonly text: string
  readonly x: number
  /** The baseline. */
  readonly y: number
  readonly size: number
  readonly anchor: Anchor
}

/** The font's advances in ems, by kinds of letters and rounded up, so that what is laid out never needs more room. */
const advances: readonly (readonly [RegExp, number])[] = [
  [/[ ijlIJ'’|.,:;·]/, 0.34],
  [/[ftr()[\]\-/\\"“”!]/, 0.47],
  [/[mMWw%@—…]/, 1.03],
  [/[BEFKLPRSTXYZ]/, 0.7],
  [/[A-Z#&^~×±≤≥→+=<>✓]/, 0.85],
  [/[\u0020-\u007e°–]/, 0.65],
]
/** Letters that are not named above, of other scripts too. */
const widestAdvance = 1.1
const ascent = 0.78
const descent = 0.24

export function textWidth(text: string, size: number): number {
  const ems = [...text].map((letter) => advances.find(([kind]) => kind.test(letter))?.[1] ?? widestAdvance)
  return ems.reduce((sum, em) => sum + em, 0) * size
}

const before: Readonly<Record<Anchor, number>> = { start: 0, middle: 0.5, end: 1 }

export function boxOf({ text, x, y, size, anchor }: PlacedText): Box {
  const width = textWidth(text, size)
  return { x: x - width * before[anchor], y: y - size * ascent, width, height: size * (ascent + descent) }
}

export function overlap(a: Box, b: Box): boolean {
  return a.x < b.x + b.width && b.x < a.x + a.width && a.y < b.y + b.height && b.y < a.y + a.height
}

export function contains(outer: Box, inner: Box): boolean {
  const isWithin = inner.x >= outer.x && inner.x + inner.width <= outer.x + outer.width
  return isWithin && inner.y >= outer.y && inner.y + inner.height <= outer.y + outer.height
}

/** The text in lines no wider than that; a word that is wider stands alone. */
export function wrap(text: string, size: number, width: number): readonly string[] {
  const lines: string[] = []
  for (const word of text.split(' ')) {
    const longer = `${lines.at(-1) ?? ''} ${word}`.trim()
    if (lines.length > 0 && textWidth(longer, size) <= width) lines[lines.length - 1] = longer
    else lines.push(word)
  }
  return lines
}
