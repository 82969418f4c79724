// The picture of a rehearsal can be read by whoever looks at it, prints it in grey or has it read out.
import { Resvg } from '@resvg/resvg-js'
import { describe, expect, it } from 'vitest'
import { clientKinds } from '#src/commands/rehearse/client-kinds.ts'
import { drawPlanPicture } from '#src/reports/draw-plan-picture.ts'
import { graphicInks, grounds, textInks, doseInk } from '#src/reports/palette.ts'
import { overlap, textWidth } from '#src/reports/text-box.ts'
import { toPng } from '#src/reports/to-png.ts'
import { allDirectionsPlan, extensionPlan } from '#tests/support/sample-chain.ts'
import { contrastRatio } from '../channels/browser/contrast.ts'
import { pictureOfKind, rehearseKind } from './rehearsed-pictures.ts'
import { findAll, readSvg, textBoxes, textOf } from './svg-reading.ts'

const seeds = [1, 2]
const cases = clientKinds.flatMap((kind) => seeds.map((seed) => ({ kind, seed, plan: seed === 1 ? extensionPlan : allDirectionsPlan })))
const drawn = cases.map(({ kind, seed, plan }) => {
  const rehearsal = rehearseKind(plan, kind, seed)
  const picture = pictureOfKind(plan, rehearsal)
  return { name: `${kind}, seed ${seed}`, rehearsal, picture, svg: drawPlanPicture(picture) }
})

describe.each(drawn)('the picture of a client: $name', ({ rehearsal, picture, svg }) => {
  const read = readSvg(svg)

  it('is one whole image with a title and a description', () => {
    const [title, desc] = read.children.map((child) => (typeof child === 'string' ? child : textOf(child)))
    expect({ role: read.attributes.role, labelled: read.attributes['aria-labelledby'], title }).toEqual({ role: 'img', labelled: 'title desc', title: picture.title })
    expect(desc).toContain(picture.panels[0]?.name)
  })

  it('has no text that touches another or leaves the picture', () => {
    const boxes = textBoxes(read)
    const [width, height] = [Number(read.attributes.width), Number(read.attributes.height)]
    const touching = boxes.flatMap((one, index) => boxes.slice(index + 1).flatMap((other) => (overlap(one.box, other.box) ? [[one.text, other.text]] : [])))
    const outside = boxes.filter(({ box }) => box.x < 0 || box.y < 0 || box.x + box.width > width || box.y + box.height > height)
    expect({ touching, outside }).toEqual({ touching: [], outside: [] })
  })

  it('shows every decision once, with its reasons', () => {
    const marks = findAll(read, ({ attributes }) => attributes['data-decision'] !== undefined).map(({ element }) => `${element.attributes['data-day']} ${element.attributes['data-decision']}`)
    const decided = rehearsal.sessions.flatMap(({ day, decisions }) => decisions.map(({ decision }) => `${day} ${decision}`))
    expect(marks.toSorted()).toEqual(decided.toSorted())
    expect(picture.panels.flatMap((panel) => panel.decisions).filter(({ why }) => why === '')).toEqual([])
  })

  it('shows every answer about pain once', () => {
    const pains = findAll(read, ({ attributes }) => attributes['data-pain'] !== undefined).map(({ element }) => Number(element.attributes['data-pain']))
    const told = [...picture.panels.flatMap((panel) => panel.pains), ...picture.before, ...picture.mornings].map(({ pain }) => pain)
    expect(pains.toSorted()).toEqual(told.toSorted())
  })

  it('finds the place of every dose in the chain', () => {
    expect(picture.panels.flatMap(({ doses }) => doses.filter(({ place }) => place < 0))).toEqual([])
    expect(picture.panels.map(({ doses }) => doses.length)).toEqual(
      picture.panels.map(({ direction }) => rehearsal.sessions.filter(({ prescription }) => prescription.some((one) => one.direction === direction && !one.warmup)).length),
    )
  })
})

describe('the inks of the pictures', () => {
  const rgb = (hex: string) => [1, 3, 5].map((at) => Number.parseInt(hex.slice(at, at + 2), 16)) as [number, number, number]
  const ratios = (inks: readonly string[]) => inks.flatMap((ink) => grounds.map((ground) => contrastRatio(rgb(ink), rgb(ground))))

  it('have a contrast of 4.5 : 1 in texts', () => {
    expect(Math.min(...ratios([...textInks, doseInk]))).toBeGreaterThanOrEqual(4.5)
  })

  it('have a contrast of 3 : 1 in graphics', () => {
    expect(Math.min(...ratios(graphicInks))).toBeGreaterThanOrEqual(3)
  })

  it('are all that a picture uses', () => {
    const used = new Set(drawn.flatMap(({ svg }) => [...svg.matchAll(/(?:fill|stroke)="(#[0-9a-f]+)"/g)].map(([, ink = '']) => ink)))
    expect([...used].filter((ink) => ![...grounds, ...textInks, ...graphicInks].includes(ink))).toEqual([])
  })
})

describe('a picture', () => {
  it('with names that are no XML is still one whole image', () => {
    const plan = { ...extensionPlan, client: { ...extensionPlan.client, name: 'A <b> & "c" \u0000\ud800 d' } }
    const svg = drawPlanPicture(pictureOfKind(plan, rehearseKind(plan, 'steady', 1, 2)))
    expect(textOf(readSvg(svg))).toContain('What the plan of A <b> & "c" \ufffd\ufffd d does')
    expect([...toPng(svg).subarray(1, 4)]).toEqual([0x50, 0x4e, 0x47])
  })

  it('of nobody who ever came is drawn too', () => {
    const picture = pictureOfKind(extensionPlan, { answers: { sessions: [] }, sessions: [] })
    const svg = drawPlanPicture(picture)
    expect(textOf(readSvg(svg))).toContain('extension')
    expect(svg).not.toMatch(/NaN|Infinity|undefined/)
  })

  it('gives its letters at least the room they need', () => {
    const letters = ["What the plan of Orla Tiernan does, 0123456789 ×!?'()", 'MWQ@#&% jumps over the lazy dog; THE QUICK BROWN FOX', '12 × 17.9 N, push 3 – 5 kg']
    const real = letters.map((text) => measure(text))
    expect(letters.filter((text, index) => textWidth(text, 100) < (real[index] ?? 0))).toEqual([])
    expect(Math.min(...real)).toBeGreaterThan(100)
  })
})

/** As the renderer sets it, between two marks, in our own font. */
function measure(text: string): number {
  const escaped = text.replaceAll('&', '&amp;')
  const svg = `<svg xmlns="http://www.w3.org/2000/svg" width="9000" height="200"><text x="0" y="100" font-size="100" font-family="DejaVu Sans">${escaped}</text></svg>`
  const fonts = { fontFiles: ['node_modules/dejavu-fonts-ttf/ttf/DejaVuSans.ttf'], loadSystemFonts: false }
  return new Resvg(svg, { font: fonts }).getBBox()?.width ?? 0
}
