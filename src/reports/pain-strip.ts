// Pain on its own scale of 0 to 10, with the limits as lines in words.
import { scaleLinear } from 'd3-scale'
import { ink, quietInk } from './palette.ts'
import { drawLocks, drawWeekLines, marginEnd, plotLeft, plotRight, rule, textSizes, write, type Frame } from './picture-frame.ts'
import { spread } from './place-labels.ts'
import type { PicturePain, PlanPicture } from './plan-picture.ts'
import { element, type SvgElement } from './svg.ts'

export const painHeight = 64
const mostPain = 10

/** How one series stands on the strip; `shift` keeps two of one day apart. */
export interface PainSeries {
  readonly pains: readonly PicturePain[]
  readonly mark: 'bar' | 'circle' | 'diamond'
  readonly shift: number
}

export function drawPainStrip(series: readonly PainSeries[], top: number, frame: Frame, { limits, words, locks }: PlanPicture): readonly SvgElement[] {
  const y = scaleLinear([0, mostPain], [top + painHeight, top])
  const zones = [
    { text: words.red, from: limits.amber, to: mostPain },
    { text: words.amber, from: limits.comfortable, to: limits.amber },
    { text: words.comfortable, from: 0, to: limits.comfortable },
  ]
  const middles = zones.map(({ from, to }) => y((from + to) / 2) + textSizes.small * 0.35)
  const heights = spread(middles, textSizes.small * 1.25, top + textSizes.small, top + painHeight + 2)
  return [
    drawWeekLines(frame, top, top + painHeight),
    ...drawLocks(locks, frame, top, top + painHeight),
    ...[0, mostPain].map((pain) => rule(plotLeft, y(pain), plotRight, y(pain))),
    // Once dotted, once dashed: the two limits are not told apart by their height alone.
    rule(plotLeft, y(limits.comfortable), plotRight, y(limits.comfortable), { stroke: quietInk, 'stroke-dasharray': '1 3' }),
    rule(plotLeft, y(limits.amber), plotRight, y(limits.amber), { stroke: quietInk, 'stroke-dasharray': '6 3' }),
    ...zones.map(({ text }, index) => write({ text, x: marginEnd, y: heights[index] ?? top, size: textSizes.small, anchor: 'end' })),
    ...series.flatMap(({ pains, mark, shift }) => pains.map(({ day, pain }) => marks[mark](frame.x(day) + shift, y(pain), y(0), { 'data-pain': pain }))),
  ]
}

type DrawMark = (x: number, y: number, floor: number, attributes: SvgElement['attributes']) => SvgElement

export const marks: Readonly<Record<PainSeries['mark'], DrawMark>> = {
  // No pain is drawn too, as a foot: nothing there would mean no answer.
  bar: (x, y, floor, attributes) => element('path', { d: `M${round(x)} ${round(floor)}V${round(Math.min(y, floor - 1.5))}`, stroke: ink, 'stroke-width': 4, ...attributes }),
  circle: (x, y, _floor, attributes) => element('circle', { cx: x, cy: y, r: 2.6, fill: 'none', stroke: ink, 'stroke-width': 1.2, ...attributes }),
  diamond: (x, y, _floor, attributes) => element('path', { d: `M${round(x)} ${round(y - 3.4)}l3 3.4-3 3.4-3-3.4z`, fill: ink, ...attributes }),
}

function round(value: number): number {
  return Math.round(value * 100) / 100
}
