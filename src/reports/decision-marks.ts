// A mark a decision, told apart by its shape, with the key in words.
import { symbol, symbolCircle, symbolTriangle } from 'd3-shape'
import { decisions, type DecisionKind } from '#src/domain/decision.ts'
import { ground, ink } from './palette.ts'
import { textSizes, write } from './picture-frame.ts'
import { element, group, type SvgElement } from './svg.ts'
import { textWidth } from './text-box.ts'

const size = 44
const triangle = symbol(symbolTriangle, size)() ?? ''
const circle = symbol(symbolCircle, size * 0.6)() ?? ''
const down = { transform: 'rotate(180)' }

const full = { fill: ink, stroke: ink }
const hollow = { fill: ground, stroke: ink, 'stroke-width': 1.2 }

const shapes: { readonly [Kind in DecisionKind]: readonly SvgElement[] } = {
  progress: [element('path', { d: triangle, ...full })],
  maintain: [element('path', { d: circle, ...hollow })],
  ease: [element('path', { d: triangle, ...hollow, ...down })],
  'step back': [
    element('path', { d: triangle, ...full, transform: 'translate(0 -3.5) rotate(180)' }),
    element('path', { d: triangle, ...full, transform: 'translate(0 3.5) rotate(180)' }),
  ],
  stop: [
    element('rect', { x: -5, y: -5, width: 10, height: 10, ...hollow }),
    element('path', { d: 'M-5 -5 5 5M5 -5-5 5', stroke: ink, 'stroke-width': 1.6 }),
  ],
}

export function drawDecision(kind: DecisionKind, x: number, y: number): SvgElement {
  return group(shapes[kind], { transform: `translate(${Math.round(x * 100) / 100} ${Math.round(y * 100) / 100})` })
}

/** The key, one line, from the most to the least demanding. */
export function drawKey(names: Readonly<Record<DecisionKind, string>>, x: number, y: number): readonly SvgElement[] {
  const widths = decisions.map((kind) => textWidth(names[kind], textSizes.note) + 40)
  return decisions.flatMap((kind, index) => {
    const at = x + widths.slice(0, index).reduce((sum, width) => sum + width, 0)
    return [drawDecision(kind, at + 6, y - 4), write({ text: names[kind], x: at + 18, y, size: textSizes.note, anchor: 'start' })]
  })
}
