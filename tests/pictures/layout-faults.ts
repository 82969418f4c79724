// How hard a picture is to read: arrows behind states and through words, arrows that cross, and width beyond a page's.
import type { Point } from '@dagrejs/dagre'
import { textWidth, type Box } from '#src/reports/text-box.ts'
import { lineHeight, sizes } from './flow-boxes.ts'
import type { FlowLayout, PlacedArrow, PlacedState } from './flow-layout.ts'

/** Our choice. */
const weights = { beginsBelow: 50, hidden: 20, crossing: 4, pixelTooWide: 0.5, pixel: 0.01 } as const
/** As wide as a page of text shows a picture without making it smaller. */
export const widestPicture = 830

type Segment = readonly [Point, Point]

export function faultsOf({ width, height, states, arrows }: FlowLayout, initial: string): number {
  const paths = arrows.map((arrow) => ({ arrow, segments: segmentsOf(arrow) }))
  const words = arrows.map((arrow) => ({ arrow, box: boxOfLabel(arrow) }))
  const hidden = paths.flatMap(({ arrow, segments }) => [
    ...states.filter((state) => !touches(arrow, state) && segments.some((segment) => runsThrough(segment, boxAround(state)))),
    ...words.filter((word) => word.arrow !== arrow && segments.some((segment) => runsThrough(segment, word.box))),
  ])
  const crossings = paths.flatMap((one, index) => paths.slice(index + 1).filter((other) => one.segments.some((a) => other.segments.some((b) => cross(a, b)))))
  const length = height + arrows.reduce((sum, arrow) => sum + lengthOf(arrow), 0)
  const beginsAt = Math.min(...states.filter(({ id }) => id === initial).map((state) => state.y - state.height / 2))
  const above = states.filter((state) => state.y + state.height / 2 < beginsAt)
  return above.length * weights.beginsBelow + hidden.length * weights.hidden + crossings.length * weights.crossing + Math.max(0, width - widestPicture) * weights.pixelTooWide + length * weights.pixel
}

export function lengthOf(arrow: PlacedArrow): number {
  return segmentsOf(arrow).reduce((sum, [from, to]) => sum + Math.hypot(to.x - from.x, to.y - from.y), 0)
}

function segmentsOf({ points }: PlacedArrow): readonly Segment[] {
  return points.slice(1).flatMap((to, index) => {
    const from = points[index]
    return from === undefined ? [] : [[from, to] as const]
  })
}

function touches({ points }: PlacedArrow, state: PlacedState): boolean {
  const around = boxAround(state, 2)
  return [points[0], points.at(-1)].some((end) => end !== undefined && isIn(end, around))
}

function boxAround({ x, y, width, height }: PlacedState, more = 0): Box {
  return { x: x - width / 2 - more, y: y - height / 2 - more, width: width + 2 * more, height: height + 2 * more }
}

function boxOfLabel({ label, x, y }: PlacedArrow): Box {
  const width = Math.max(0, ...label.map((line) => textWidth(line, sizes.small)))
  const height = label.length * lineHeight
  return { x: x - width / 2, y: y - height / 2, width, height }
}

function isIn({ x, y }: Point, box: Box): boolean {
  return x >= box.x && x <= box.x + box.width && y >= box.y && y <= box.y + box.height
}

function runsThrough([from, to]: Segment, box: Box): boolean {
  if (box.width === 0) return false
  const corners = [
    { x: box.x, y: box.y },
    { x: box.x + box.width, y: box.y },
    { x: box.x + box.width, y: box.y + box.height },
    { x: box.x, y: box.y + box.height },
  ]
  const sides = corners.map((corner, index) => [corner, corners[(index + 1) % corners.length] ?? corner] as const)
  return isIn(from, box) || isIn(to, box) || sides.some((side) => cross([from, to], side))
}

/** The sign of the turn from one direction to another. */
function turn(a: Point, b: Point, c: Point): number {
  return Math.sign((b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x))
}

function cross([a, b]: Segment, [c, d]: Segment): boolean {
  return turn(a, b, c) * turn(a, b, d) < 0 && turn(c, d, a) * turn(c, d, b) < 0
}
