import { curveMonotoneY, line } from 'd3-shape'
import { fontFamily, ground, ink, quietInk, shade } from '#src/reports/palette.ts'
import { element, group, renderSvg, type SvgElement } from '#src/reports/svg.ts'
import { textWidth, wrap } from '#src/reports/text-box.ts'
import { lineHeight, sayWay, sizes, slant, type Line } from './flow-boxes.ts'
import type { ShownFlow, ShownState } from './flow-graph.ts'
import type { PlacedArrow, PlacedState } from './flow-layout.ts'
import { layOutFlow } from './lay-out-flow.ts'

const margin = 16
/** A page of text is wider than the smallest flows. */
const narrowest = 460

/** A flow as one picture that stands for itself: what holds everywhere, then the states and the ways between them. */
export function drawFlow(flow: ShownFlow): string {
  const placed = layOutFlow(flow)
  const width = Math.ceil(Math.max(placed.width, narrowest) + 2 * margin)
  const header = headerOf(flow, width - 2 * margin)
  const top = margin + header.length * lineHeight + 18
  const height = Math.ceil(top + placed.height + margin)
  const attributes = { xmlns: 'http://www.w3.org/2000/svg', width, height, viewBox: `0 0 ${width} ${height}`, role: 'img', 'aria-labelledby': 'title desc' }
  const left = (width - placed.width) / 2
  return renderSvg(
    element('svg', attributes, [
      element('title', { id: 'title' }, [`The flow ${flow.id}`]),
      element('desc', { id: 'desc' }, [describe(flow)]),
      arrowHead(),
      element('rect', { width, height, fill: ground }),
      group(header.map((line, index) => write(line, margin, margin + (index + 0.8) * lineHeight, 'start'))),
      // Arrows first: nothing may run over the words.
      ...placed.arrows.map((arrow) => drawArrow(moveArrow(arrow, left, top))),
      ...placed.states.map((state) => drawState({ ...state, x: state.x + left, y: state.y + top })),
      ...placed.arrows.map((arrow) => drawLabel(moveArrow(arrow, left, top))),
    ]),
  ).concat('\n')
}

function headerOf({ id, purpose, everywhere }: ShownFlow, width: number): readonly Line[] {
  const small = (text: string): Line => ({ text, size: sizes.small, isBold: false })
  return [
    { text: id, size: sizes.title, isBold: true },
    ...wrap(purpose, sizes.small, width).map(small),
    small('In every state, unless it says otherwise:'),
    ...everywhere.flatMap((way) => wrap(`– ${sayWay(way)}`, sizes.small, width)).map(small),
  ]
}

/** For whoever hears the picture instead of seeing it. */
function describe({ purpose, states, everywhere }: ShownFlow): string {
  const say = ({ name, kind, ways }: ShownState): string => `${name} ${kind}${ways.length === 0 ? '' : `: ${ways.map(sayWay).join('; ')}`}.`
  return [purpose, ...states.map(say), `In every state: ${everywhere.map(sayWay).join('; ')}.`].join(' ')
}

function moveArrow(arrow: PlacedArrow, right: number, down: number): PlacedArrow {
  const points = arrow.points.map(({ x, y }) => ({ x: x + right, y: y + down }))
  return { ...arrow, x: arrow.x + right, y: arrow.y + down, points }
}

function arrowHead(): SvgElement {
  const attributes = { id: 'arrow', viewBox: '0 0 8 8', refX: 7.5, refY: 4, markerWidth: 8, markerHeight: 8, orient: 'auto' }
  return element('defs', {}, [element('marker', attributes, [element('path', { d: 'M0 0.5 8 4 0 7.5Z', fill: quietInk })])])
}

function drawArrow({ from, to, points }: PlacedArrow): SvgElement {
  const path = from === to ? loop(points) : line().curve(curveMonotoneY)(points.map(({ x, y }) => [x, y]))
  return element('path', { d: shortenNumbers(path ?? ''), fill: 'none', stroke: quietInk, 'stroke-width': 1.2, 'marker-end': 'url(#arrow)' })
}

/** Out of the side of a state, through its label and in again. */
function loop([out, label, into]: PlacedArrow['points']): string {
  if (!out || !label || !into) return ''
  // In the middle of a curve of this kind its outer points count three quarters.
  const reach = (label.x - out.x / 4) / 0.75
  return `M${out.x} ${out.y}C${reach} ${out.y} ${reach} ${into.y} ${into.x} ${into.y}`
}

/** A hundredth of a pixel is nothing to see. */
function shortenNumbers(path: string): string {
  return path.replaceAll(/-?\d+\.\d+/g, (number) => String(Math.round(Number(number) * 100) / 100))
}

/** On bare ground, so that no arrow runs through. */
function drawLabel({ label, x, y }: PlacedArrow): SvgElement {
  const width = Math.max(0, ...label.map((text) => textWidth(text, sizes.small)))
  const top = y - (label.length * lineHeight) / 2
  const ground_ = element('rect', { x: x - width / 2 - 2, y: top, width: width + 4, height: label.length * lineHeight, fill: ground })
  const lines = label.map((text, index) => write({ text, size: sizes.small, isBold: false }, x, top + (index + 0.75) * lineHeight, 'middle'))
  return group(label.length === 0 ? [] : [ground_, ...lines])
}

function drawState({ state, lines, x, y, width, height }: PlacedState): SvgElement {
  const top = y - (lines.length * lineHeight) / 2
  const text = lines.map((one, index) => write(one, x, top + (index + 0.78) * lineHeight, 'middle'))
  return group([outlines[state.kind](x - width / 2, y - height / 2, width, height), ...text], { 'data-state': state.name })
}

/** Told apart by their shape: rounded where it asks, a lozenge where it decides, a double line where it ends, dashed where it goes on elsewhere. */
const outlines: Record<ShownState['kind'], (x: number, y: number, width: number, height: number) => SvgElement> = {
  asks: (x, y, width, height) => element('rect', { x, y, width, height, rx: 9, fill: ground, stroke: ink, 'stroke-width': 1.6 }),
  decides: (x, y, width, height) => {
    const corners = [[x, y + height / 2], [x + slant, y], [x + width - slant, y], [x + width, y + height / 2], [x + width - slant, y + height], [x + slant, y + height]]
    return element('polygon', { points: corners.map((corner) => corner.map((value) => Math.round(value * 100) / 100).join(',')).join(' '), fill: shade, stroke: quietInk, 'stroke-width': 1 })
  },
  ends: (x, y, width, height) =>
    group([
      element('rect', { x, y, width, height, rx: height / 2, fill: ground, stroke: ink, 'stroke-width': 1.6 }),
      element('rect', { x: x + 3.5, y: y + 3.5, width: width - 7, height: height - 7, rx: height / 2 - 3.5, fill: 'none', stroke: ink, 'stroke-width': 1 }),
    ]),
  elsewhere: pill,
}

function pill(x: number, y: number, width: number, height: number): SvgElement {
  return element('rect', { x, y, width, height, rx: height / 2, fill: ground, stroke: quietInk, 'stroke-width': 1, 'stroke-dasharray': '3 3' })
}

function write({ text, size, isBold }: Line, x: number, y: number, anchor: 'start' | 'middle'): SvgElement {
  const attributes = { x, y, 'font-size': size, 'text-anchor': anchor, 'font-family': fontFamily, fill: ink, ...(isBold ? { 'font-weight': 'bold' } : {}) }
  return element('text', attributes, [text])
}
