// What every part of the picture shares: the weeks across, the margin for names on the left, and how text is set.
import { scaleLinear } from 'd3-scale'
import { fontFamily, ground, ink, lineInk, lockInk } from './palette.ts'
import type { PictureLock } from './plan-picture.ts'
import { element, group, type SvgElement } from './svg.ts'
import { boxOf, type PlacedText } from './text-box.ts'

export const pictureWidth = 1000
export const plotLeft = 190
export const plotRight = pictureWidth - 24
/** Names in the margin end here. */
export const marginEnd = plotLeft - 8
export const textSizes = { title: 18, panel: 14, note: 12, label: 11, small: 10 } as const

const daysAWeek = 7

/** A part of the picture, drawn from its own top. */
export interface Part {
  readonly height: number
  readonly nodes: readonly SvgElement[]
}

export interface Frame {
  readonly weeks: number
  /** The middle of a day. */
  readonly x: (day: number) => number
  /** Where a week begins, counted from 0. */
  readonly weekStart: (week: number) => number
}

export function createFrame(weeks: number): Frame {
  // One day more than the weeks have: the last morning after belongs to them.
  const scale = scaleLinear([0, weeks * daysAWeek + 1], [plotLeft, plotRight])
  return { weeks, x: (day) => scale(day + 0.5), weekStart: (week) => scale(week * daysAWeek) }
}

export function write(placed: PlacedText, attributes: SvgElement['attributes'] = {}): SvgElement {
  const { text, x, y, size, anchor } = placed
  return element('text', { x, y, 'font-size': size, 'text-anchor': anchor, 'font-family': fontFamily, fill: ink, ...attributes }, [text])
}

export function rule(x1: number, y1: number, x2: number, y2: number, attributes: SvgElement['attributes'] = {}): SvgElement {
  return element('line', { x1, y1, x2, y2, stroke: lineInk, 'stroke-width': 1, ...attributes })
}

/** A thin upright line where each week begins. */
export function drawWeekLines({ weeks, weekStart }: Frame, top: number, bottom: number): SvgElement {
  return group(Array.from({ length: weeks + 1 }, (_, week) => rule(weekStart(week), top, weekStart(week), bottom, { 'stroke-width': 0.5 })))
}

const roomForWeek = 26

/** As many of the numbers as have room: every one, every second, every fifth … */
export function drawWeekNames({ weeks, weekStart }: Frame, y: number, name: string): readonly SvgElement[] {
  const every = [1, 2, 5, 10, 20, 50].find((step) => weekStart(step) - weekStart(0) >= roomForWeek) ?? 100
  const numbered = Array.from({ length: weeks }, (_, week) => week).filter((week) => week % every === 0)
  return [
    write({ text: name, x: marginEnd, y, size: textSizes.small, anchor: 'end' }),
    ...numbered.map((week) => write({ text: String(week + 1), x: weekStart(week + 0.5), y, size: textSizes.small, anchor: 'middle' })),
  ]
}

export const hatchId = 'locked'

export function hatchPattern(): SvgElement {
  const stripe = element('path', { d: 'M0 8 8 0', stroke: lockInk, 'stroke-width': 1 })
  return element('defs', {}, [element('pattern', { id: hatchId, width: 8, height: 8, patternUnits: 'userSpaceOnUse' }, [stripe])])
}

/** Hatched from the day of the lock to the day of the clearing. */
export function drawLocks(locks: readonly PictureLock[], { x }: Frame, top: number, bottom: number): readonly SvgElement[] {
  return locks.map(({ from, to }) =>
    element('rect', { x: x(from), y: top, width: Math.max(3, x(to) - x(from)), height: bottom - top, fill: `url(#${hatchId})`, stroke: lockInk }),
  )
}

/** A text with the bare ground behind it, so that no line runs through. */
export function writeOnGround(placed: PlacedText): SvgElement {
  const { x, y, width, height } = boxOf(placed)
  return group([element('rect', { x, y, width, height, fill: ground }), write(placed)])
}
