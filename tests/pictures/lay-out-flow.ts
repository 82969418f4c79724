// Where the states and arrows of a flow stand: layers from top to bottom, with as few crossings as can be found.
import { Graph, layout, type EdgeLabel, type GraphLabel, type NodeLabel, type Point } from '@dagrejs/dagre'
import { textWidth } from '#src/reports/text-box.ts'
import { lineHeight, sizes, slant, type StateBox } from './flow-boxes.ts'
import type { Arrow, FlowLayout, PlacedArrow, PlacedState } from './flow-layout.ts'
import type { ShownFlow } from './flow-graph.ts'
import { boxesAndArrows, type Drawn } from './flow-parts.ts'
import { faultsOf, lengthOf } from './layout-faults.ts'

const gaps: GraphLabel = { rankdir: 'TB', nodesep: 20, edgesep: 14, ranksep: 24, marginx: 0, marginy: 0 }

/** What the library makes of a graph depends on how it is told of it; the clearest of these is taken. */
const tellings = ([undefined, 'greedy'] as const).flatMap((acyclicer) =>
  [false, true].flatMap((reversesArrows) => [false, true].map((endsLast) => ({ acyclicer, reversesArrows, endsLast }))),
)
type Telling = (typeof tellings)[number]

/** Our choice: arrows longer than this are hard to follow, and more so against the order of reading. */
const longest = { down: 420, up: 260 } as const

/**
 * An arrow that is too long is cut off and names where it goes on, the longest first, as long as another one still comes
 * to the same state or it is where the flow begins.
 */
export function layOutFlow(flow: ShownFlow): FlowLayout {
  const cut = new Set<string>()
  for (;;) {
    const placed = clearest(boxesAndArrows(flow, cut), flow.initial)
    const isSpare = (arrow: PlacedArrow): boolean => isTooLong(arrow) && (arrow.to === flow.initial || hasAnother(arrow, placed))
    const [next] = placed.arrows.filter(isSpare).toSorted((one, other) => lengthOf(other) - lengthOf(one))
    if (next === undefined) return placed
    cut.add(keyOf(next))
  }
}

export function keyOf({ from, to }: Pick<Arrow, 'from' | 'to'>): string {
  return `${from} → ${to}`
}

function isTooLong(arrow: PlacedArrow): boolean {
  const [first, last] = [arrow.points[0], arrow.points.at(-1)]
  const isUp = first !== undefined && last !== undefined && last.y < first.y
  return lengthOf(arrow) > (isUp ? longest.up : longest.down)
}

function hasAnother({ from, to }: PlacedArrow, { arrows }: FlowLayout): boolean {
  return from !== to && arrows.some((other) => other.to === to && other.from !== from && other.from !== to)
}

function clearest(drawn: Drawn, initial: string): FlowLayout {
  const judged = tellings.map((telling) => {
    const one = layOut(drawn, telling)
    return { one, faults: faultsOf(one, initial) }
  })
  return judged.toSorted((a, b) => a.faults - b.faults)[0]?.one ?? { width: 0, height: 0, states: [], arrows: [] }
}

function layOut(drawn: Drawn, { acyclicer, reversesArrows, endsLast }: Telling): FlowLayout {
  const boxes = endsLast ? drawn.boxes.toSorted((one, other) => rankOf(one.box) - rankOf(other.box)) : drawn.boxes
  const arrows = reversesArrows ? drawn.arrows.toReversed() : drawn.arrows
  const graph = new Graph<GraphLabel, NodeLabel, EdgeLabel>()
  graph.setGraph({ ...gaps, ...(acyclicer === undefined ? {} : { acyclicer }) })
  for (const { id, box } of boxes) graph.setNode(id, { width: box.width, height: box.height })
  for (const { from, to, label } of arrows) graph.setEdge(from, to, roomFor(label))
  layout(graph)
  const { width = 0, height = 0 } = graph.graph()
  const states = boxes.map(({ id, box }) => ({ id, ...box, ...placeOf(graph.node(id)) }))
  const placed = arrows.map((arrow) => {
    const edge = graph.edge(arrow.from, arrow.to)
    const own = arrow.from === arrow.to ? states.find(({ id }) => id === arrow.from) : undefined
    return own ? beside(own, arrow, placeOf(edge)) : { ...arrow, ...placeOf(edge), points: ontoOutlines(edge.points ?? [], states.find(({ id }) => id === arrow.from), states.find(({ id }) => id === arrow.to)) }
  })
  return { width, height, states, arrows: placed }
}

/** The library takes every box for a rectangle: at the ends of a lozenge an arrow would hang in the air. */
function ontoOutlines(points: readonly Point[], from: PlacedState | undefined, to: PlacedState | undefined): readonly Point[] {
  return points.map((point, index) => {
    const box = index === 0 ? from : index === points.length - 1 ? to : undefined
    if (box?.state.kind !== 'decides') return point
    const halfWidth = box.width / 2 - (slant * Math.abs(point.y - box.y)) / (box.height / 2)
    return { x: Math.min(box.x + halfWidth, Math.max(box.x - halfWidth, point.x)), y: point.y }
  })
}

/** The library keeps room for the way from a state to itself, and leaves it unfinished. */
function beside({ x, y, width, height }: PlacedState, arrow: Arrow, room: Point): PlacedArrow {
  const right = x + width / 2
  const labelAt = Math.min(room.x, right + loopReach + (roomFor(arrow.label).width ?? 0) / 2)
  const points = [{ x: right, y: y - height / 4 }, { x: labelAt, y }, { x: right, y: y + height / 4 }]
  return { ...arrow, x: labelAt, y, points }
}
const loopReach = 8

function rankOf({ state }: StateBox): number {
  return state.kind === 'asks' || state.kind === 'decides' ? 0 : 1
}

function placeOf({ x = 0, y = 0 }: { readonly x?: number; readonly y?: number }): Point {
  return { x, y }
}

function roomFor(label: readonly string[]): EdgeLabel {
  if (label.length === 0) return {}
  const width = Math.max(...label.map((line) => textWidth(line, sizes.small)))
  return { width: width + 6, height: label.length * lineHeight, labelpos: 'c' }
}
