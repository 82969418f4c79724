// The dose's way through the chain, place by place, with the rungs as bands.
import { scaleLinear } from 'd3-scale'
import { curveStepAfter, line } from 'd3-shape'
import { doseInk, ground, shade } from './palette.ts'
import { drawLocks, drawWeekLines, marginEnd, plotLeft, plotRight, rule, textSizes, write, writeOnGround, type Frame } from './picture-frame.ts'
import { placeLabels, spread, type Label } from './place-labels.ts'
import type { PictureDose, PictureLock, PicturePanel, PlanPicture } from './plan-picture.ts'
import { element, type SvgElement } from './svg.ts'
import { boxOf, overlap, wrap, type Box, type PlacedText } from './text-box.ts'

export const plotHeight = 150
/** Places drawn beyond those visited. */
const placesAround = 2
const nameWidth = marginEnd - 12
/** Keeps weeks and edges of rungs from running through a label. */
const halo = { stroke: ground, 'stroke-width': 3, 'stroke-linejoin': 'round', 'paint-order': 'stroke' }

type Scale = (place: number) => number

export function drawDosePlot(panel: PicturePanel, top: number, frame: Frame, { locks, words }: PlanPicture): readonly SvgElement[] {
  const bottom = top + plotHeight
  // Where nothing was ever prescribed, the foot of the chain.
  const visited = panel.doses.length === 0 ? [0] : panel.doses.map((dose) => dose.place)
  const [low, high] = [Math.min(...visited) - placesAround, Math.max(...visited) + placesAround]
  const y = scaleLinear([low - 0.5, high + 0.5], [bottom, top])
  const runs = runsOf(panel.doses, locks)
  const steps = runs.flatMap((run) => boxesOf(run, frame, y))
  const area: Box = { x: plotLeft, y: top, width: plotRight - plotLeft, height: plotHeight }
  const lockAreas = locks.map(({ from, to }) => ({ x: frame.x(from), y: top, width: frame.x(to) - frame.x(from), height: plotHeight }))
  const lockNames = locks.map(({ from, to }) => nameLock(words.locked, (frame.x(from) + frame.x(to)) / 2, top, steps))
  const labels = placeLabels(labelsOf(panel.doses, frame, y), textSizes.label, area, [...steps, ...lockAreas])
  return [
    ...drawRungs(panel, y, [low, high], top),
    drawWeekLines(frame, top, bottom),
    ...drawLocks(locks, frame, top, bottom),
    ...lockNames.map(writeOnGround),
    ...runs.map((run) => drawRun(run, frame, y)),
    ...panel.doses.map(({ day, place }) => element('circle', { cx: frame.x(day), cy: y(place), r: 2.2, fill: doseInk })),
    ...labels.map((label) => write(label, { fill: doseInk, ...halo })),
  ]
}

/** The line breaks where a lock lies between two sessions. */
function runsOf(doses: readonly PictureDose[], locks: readonly PictureLock[]): readonly (readonly PictureDose[])[] {
  const runs: PictureDose[][] = []
  for (const dose of doses) {
    const before = runs.at(-1)?.at(-1)
    const isApart = before === undefined || locks.some(({ from, to }) => before.day <= from && to <= dose.day)
    if (isApart) runs.push([dose])
    else runs.at(-1)?.push(dose)
  }
  return runs
}

function drawRun(run: readonly PictureDose[], { x }: Frame, y: Scale): SvgElement {
  const path = line<PictureDose>((dose) => x(dose.day), (dose) => y(dose.place)).curve(curveStepAfter)(run)
  return element('path', { d: path ?? '', fill: 'none', stroke: doseInk, 'stroke-width': 2, 'stroke-linejoin': 'round' })
}

const lineRoom = 3

/** What the line and its points take up. */
function boxesOf(run: readonly PictureDose[], { x }: Frame, y: Scale): readonly Box[] {
  return run.flatMap((dose, index) => {
    const next = run[index + 1] ?? dose
    const [left, right] = [x(dose.day), x(next.day)]
    const [upper, lower] = [Math.min(y(dose.place), y(next.place)), Math.max(y(dose.place), y(next.place))]
    return [
      { x: left - lineRoom, y: y(dose.place) - lineRoom, width: right - left + 2 * lineRoom, height: 2 * lineRoom },
      { x: right - lineRoom, y: upper - lineRoom, width: 2 * lineRoom, height: lower - upper + 2 * lineRoom },
    ]
  })
}

/** Rungs matter most, then the first and the last dose, then turns and new loads, then every other change. */
function labelsOf(doses: readonly PictureDose[], { x }: Frame, y: Scale): readonly Label[] {
  return doses.flatMap((dose, index): Label[] => {
    const before = doses[index - 1]
    if (before?.text === dose.text && index !== doses.length - 1) return []
    const isTurn = before !== undefined && dose.place < before.place
    const weight = before === undefined || before.rung !== dose.rung ? 4 : index === doses.length - 1 ? 3 : isTurn ? 2 : 1
    return [{ text: dose.text, x: x(dose.day), y: y(dose.place), weight }]
  })
}

function drawRungs({ rungs }: PicturePanel, y: Scale, [low, high]: readonly [number, number], top: number): readonly SvgElement[] {
  const shown = rungs.flatMap(({ name, from, to }) => {
    const [upper, lower] = [Math.min(to, high), Math.max(from, low)]
    return upper < lower ? [] : [{ name, from, edge: y(upper + 0.5), height: y(lower - 0.5) - y(upper + 0.5) }]
  })
  const names = shown.flatMap(({ name, edge, height }) => {
    const lines = wrap(name, textSizes.label, nameWidth)
    return lines.map((text, index) => ({ text, y: edge + height / 2 + (index - (lines.length - 1) / 2) * textSizes.label * 1.2 + textSizes.label * 0.35 }))
  })
  const heights = spread(names.map((name) => name.y), textSizes.label * 1.2, top + textSizes.label, top + plotHeight - 2)
  return [
    ...shown.map(({ from, edge, height }) => {
      const fill = rungs.findIndex((rung) => rung.from === from) % 2 === 1 ? shade : 'none'
      return element('rect', { x: plotLeft, y: edge, width: plotRight - plotLeft, height, fill })
    }),
    ...shown.map(({ edge }) => rule(plotLeft, edge, plotRight, edge)),
    rule(plotLeft, top + plotHeight, plotRight, top + plotHeight),
    ...names.map(({ text }, index) => write({ text, x: marginEnd, y: heights[index] ?? top, size: textSizes.label, anchor: 'end' })),
  ]
}

/** Inside the hatching, at the height where it hides no part of the line. */
function nameLock(text: string, x: number, top: number, steps: readonly Box[]): PlacedText {
  const size = textSizes.label
  const at = (line: number): PlacedText => {
    const placed: PlacedText = { text, x, y: top + size * (1.4 + line * 1.5), size, anchor: 'middle' }
    const { x: left, width } = boxOf(placed)
    const shift = Math.max(0, plotLeft + 2 - left) - Math.max(0, left + width - plotRight + 2)
    return { ...placed, x: x + shift }
  }
  const choices = Array.from({ length: 8 }, (_, line) => at(line))
  return choices.find((choice) => !steps.some((step) => overlap(step, boxOf(choice)))) ?? at(0)
}
