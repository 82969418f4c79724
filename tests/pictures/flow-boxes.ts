// How much room a state and an edge's label take, and the lines that stand in them.
import { textWidth, wrap } from '#src/reports/text-box.ts'
import type { ShownState, ShownWay } from './flow-graph.ts'

export const sizes = { title: 16, name: 13, small: 11 } as const
export const lineHeight = 15
/** Bold letters are wider by about a tenth. */
const bold = 1.12
const padding = { x: 12, y: 9 } as const
/** Room at the ends of a lozenge, where it is too low for text. */
export const slant = 14
const widestQuestion = 160
const linesOfQuestion = 2
const widestLabel = 110

export interface Line {
  readonly text: string
  readonly size: number
  readonly isBold: boolean
}

export interface StateBox {
  readonly state: ShownState
  readonly lines: readonly Line[]
  readonly width: number
  readonly height: number
}

export function boxOfState(state: ShownState): StateBox {
  const lines = linesOf(state)
  const textRoom = Math.max(...lines.map(({ text, size, isBold }) => textWidth(text, size) * (isBold ? bold : 1)))
  const ends = state.kind === 'decides' ? slant : padding.x
  const above = state.kind === 'asks' ? padding.y : padding.y / 2
  return { state, lines, width: Math.ceil(textRoom + 2 * ends), height: lines.length * lineHeight + 2 * above }
}

function linesOf(state: ShownState): readonly Line[] {
  const small = (text: string): Line => ({ text, size: sizes.small, isBold: false })
  return [
    { text: state.name, size: state.kind === 'asks' ? sizes.name : sizes.small, isBold: state.kind === 'asks' },
    ...(state.question === null ? [] : firstWords(state.question).map(small)),
    ...state.notes.map((note) => small(`▸ ${note}`)),
    ...asideOf(state).map(small),
  ]
}

function firstWords(question: string): readonly string[] {
  const lines = wrap(question, sizes.small, widestQuestion)
  if (lines.length <= linesOfQuestion) return lines
  const kept = lines.slice(0, linesOfQuestion)
  return kept.map((line, index) => (index === linesOfQuestion - 1 ? `${line} …` : line))
}

/** Only what was asked or decided is an arrow; ways back and out would cross all others, and stand in the box. */
export function isArrow({ event }: ShownWay): boolean {
  return event === 'answer' || event === 'go'
}

function asideOf({ ways }: ShownState): readonly string[] {
  return ways.filter((way) => !isArrow(way)).flatMap((way) => wrap(sayWay(way), sizes.small, widestQuestion))
}

/** An event and where it leads, in one line. */
export function sayWay({ event, when, to }: ShownWay): string {
  return `${event}${when === '' ? '' : `, ${when}`} → ${to}`
}

/** What stands on an arrow: one condition below the other; nothing where it is the only way on. */
export function labelOf(ways: readonly ShownWay[]): readonly string[] {
  const conditions = ways.map(({ when }) => when).filter((when) => when !== '')
  return conditions.flatMap((when, index) => wrap(index === conditions.length - 1 ? when : `${when},`, sizes.small, widestLabel))
}
