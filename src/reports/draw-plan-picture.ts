import { drawDecision, drawKey } from './decision-marks.ts'
import { drawDosePlot, plotHeight } from './dose-plot.ts'
import { drawPainStrip, marks, painHeight } from './pain-strip.ts'
import { ground, ink } from './palette.ts'
import {
  createFrame,
  drawLocks,
  drawWeekLines,
  drawWeekNames,
  hatchPattern,
  marginEnd,
  pictureWidth,
  plotLeft,
  plotRight,
  textSizes,
  write,
  type Frame,
  type Part,
} from './picture-frame.ts'
import type { PicturePanel, PlanPicture } from './plan-picture.ts'
import { element, group, renderSvg, type SvgElement } from './svg.ts'
import { textWidth } from './text-box.ts'

const padding = 20
const rowHeight = 20
const titleHeight = 22

/** One picture, standing for itself: a title, the key, a panel a direction, and what concerns the whole client. */
export function drawPlanPicture(picture: PlanPicture): string {
  const frame = createFrame(picture.weeks)
  const parts = [drawHeader(picture), ...picture.panels.map((panel) => drawPanel(panel, frame, picture)), drawWholeClient(frame, picture)]
  const tops = parts.map((_, index) => padding + parts.slice(0, index).reduce((sum, part) => sum + part.height + padding, 0))
  const height = padding + parts.reduce((sum, part) => sum + part.height + padding, 0)
  const attributes = {
    xmlns: 'http://www.w3.org/2000/svg',
    width: pictureWidth,
    height,
    viewBox: `0 0 ${pictureWidth} ${height}`,
    role: 'img',
    'aria-labelledby': 'title desc',
  }
  return renderSvg(
    element('svg', attributes, [
      element('title', { id: 'title' }, [picture.title]),
      element('desc', { id: 'desc' }, [describe(picture)]),
      hatchPattern(),
      element('rect', { width: pictureWidth, height, fill: ground }),
      ...parts.map(({ nodes }, index) => group(nodes, { transform: `translate(0 ${tops[index] ?? 0})` })),
    ]),
  )
}

/** For whoever hears the picture instead of seeing it: each direction's way in a sentence. */
function describe({ notes, panels }: PlanPicture): string {
  const ways = panels.map(({ name, doses }) => [name, [doses[0], doses.at(-1)].map((dose) => dose?.text ?? '–').join(' → ')].join(': '))
  return [...notes, ...ways].join(' ')
}

function drawHeader({ title, notes, words }: PlanPicture): Part {
  const top = textSizes.title
  const lines = notes.map((text, index) => write({ text, x: padding, y: top + (index + 1) * 18, size: textSizes.note, anchor: 'start' }))
  const keyTop = top + (notes.length + 1) * 18 + 8
  return {
    height: keyTop,
    nodes: [write({ text: title, x: padding, y: top, size: textSizes.title, anchor: 'start' }, { 'font-weight': 'bold' }), ...lines, ...drawKey(words.decisions, padding, keyTop)],
  }
}

function drawPanel(panel: PicturePanel, frame: Frame, picture: PlanPicture): Part {
  const { words, locks } = picture
  const plotTop = titleHeight
  const rowTop = plotTop + plotHeight
  const painTop = rowTop + rowHeight + 8
  const rowMiddle = rowTop + rowHeight / 2
  const nodes = [
    write({ text: panel.name, x: padding, y: textSizes.panel, size: textSizes.panel, anchor: 'start' }, { 'font-weight': 'bold' }),
    write({ text: words.place, x: plotRight, y: textSizes.panel, size: textSizes.small, anchor: 'end' }),
    ...drawDosePlot(panel, plotTop, frame, picture),
    drawWeekLines(frame, rowTop, rowTop + rowHeight),
    ...drawLocks(locks, frame, rowTop, rowTop + rowHeight),
    write({ text: words.decided, x: marginEnd, y: rowMiddle + 4, size: textSizes.small, anchor: 'end' }),
    ...panel.decisions.map(({ day, kind, why }) =>
      group([element('title', {}, [`${words.decisions[kind]}: ${why}`]), drawDecision(kind, frame.x(day), rowMiddle)], { 'data-decision': kind, 'data-day': day }),
    ),
    ...drawPainStrip([{ pains: panel.pains, mark: 'bar', shift: 0 }], painTop, frame, picture),
    write({ text: words.worstPain, x: plotLeft, y: painTop + painHeight + 13, size: textSizes.small, anchor: 'start' }),
  ]
  return { height: painTop + painHeight + 14, nodes }
}

function drawWholeClient(frame: Frame, picture: PlanPicture): Part {
  const { words, before, mornings, trainedOn, missedOn } = picture
  const painTop = titleHeight + 12
  const rowTop = painTop + painHeight + 8
  const rowMiddle = rowTop + rowHeight / 2
  const weeksTop = rowTop + rowHeight + 14
  const nodes = [
    write({ text: words.wholeClient, x: padding, y: textSizes.panel, size: textSizes.panel, anchor: 'start' }, { 'font-weight': 'bold' }),
    ...drawSeriesKey(picture),
    ...drawPainStrip([{ pains: before, mark: 'circle', shift: -2 }, { pains: mornings, mark: 'diamond', shift: 2 }], painTop, frame, picture),
    drawWeekLines(frame, rowTop, rowTop + rowHeight),
    write({ text: words.days, x: marginEnd, y: rowMiddle + 4, size: textSizes.small, anchor: 'end' }),
    ...trainedOn.map((day) => drawDay(frame.x(day), rowMiddle, true)),
    ...missedOn.map((day) => drawDay(frame.x(day), rowMiddle, false)),
    ...drawWeekNames(frame, weeksTop, words.week),
  ]
  return { height: weeksTop, nodes }
}

function drawDay(x: number, y: number, isTrained: boolean): SvgElement {
  return element('rect', { x: x - 3, y: y - 4, width: 6, height: 8, fill: isTrained ? ink : ground, stroke: ink })
}

function drawSeriesKey({ words }: PlanPicture): readonly SvgElement[] {
  const y = textSizes.panel - 4
  const entries = [
    { text: words.before, draw: (x: number) => marks.circle(x, y, y, {}) },
    { text: words.morning, draw: (x: number) => marks.diamond(x, y, y, {}) },
    { text: words.trained, draw: (x: number) => drawDay(x, y, true) },
    { text: words.missed, draw: (x: number) => drawDay(x, y, false) },
  ]
  const widths = entries.map(({ text }) => textWidth(text, textSizes.small) + 30)
  return entries.flatMap(({ text, draw }, index) => {
    const at = plotLeft + 6 + widths.slice(0, index).reduce((sum, width) => sum + width, 0)
    return [draw(at), write({ text, x: at + 10, y: y + 4, size: textSizes.small, anchor: 'start' })]
  })
}
