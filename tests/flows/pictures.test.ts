import { readdirSync, readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { flows } from '#flows/registry.ts'
import { overlap, type Box } from '#src/reports/text-box.ts'
import { flowDocuments, flowFolder } from '#tests/pictures/flow-documents.ts'
import { findAll, readSvg, textBoxes, textOf, type ReadElement } from '../reports/svg-reading.ts'

const documents = flowDocuments()
const pictures = [...documents].filter(([name]) => name.endsWith('.svg')).map(([name, text]) => ({ name, text, svg: readSvg(text.trim()) }))

describe('docs/flows', () => {
  it('holds what `npm run pictures` writes, and nothing else: run npm run pictures', () => {
    const stored = new Map(readdirSync(flowFolder).map((name) => [name, readFileSync(new URL(name, flowFolder), 'utf8')]))
    const names = new Set([...documents.keys(), ...stored.keys()])
    expect([...names].filter((name) => stored.get(name) !== documents.get(name))).toEqual([])
  })

  it('has a picture of every flow of the registry', () => {
    expect(pictures.map(({ name }) => name).toSorted()).toEqual([...flows.keys()].map((id) => `${id}.svg`).toSorted())
  })

  it('shows every picture on its page, and every state with its ways', () => {
    const page = documents.get('README.md') ?? ''
    const missing = [...flows.values()].flatMap((flow) => {
      const section = page.split(`\n## ${flow.id}\n`)[1]?.split('\n## ')[0] ?? ''
      const wanted = [`](${flow.id}.svg)`, ...Object.keys(flow.machine.states).map((state) => `| \`${state}\` |`)]
      return wanted.filter((text) => !section.includes(text)).map((text) => `${flow.id}: ${text}`)
    })
    expect(missing).toEqual([])
  })
})

/** The rectangle around what is drawn of a state. */
function outlineOf(state: ReadElement): Box {
  const [rect] = findAll(state, ({ name }) => name === 'rect')
  if (rect) {
    const { x, y, width, height } = rect.element.attributes
    return { x: Number(x), y: Number(y), width: Number(width), height: Number(height) }
  }
  const corners = findAll(state, ({ name }) => name === 'polygon')[0]?.element.attributes.points?.split(' ').map((corner) => corner.split(',').map(Number)) ?? []
  const [xs, ys] = [corners.map(([x = 0]) => x), corners.map(([, y = 0]) => y)]
  return { x: Math.min(...xs), y: Math.min(...ys), width: Math.max(...xs) - Math.min(...xs), height: Math.max(...ys) - Math.min(...ys) }
}

/** Pairs of texts of which one runs into the other. */
function touching<T>(items: readonly T[], others: (index: number) => readonly T[], boxOf: (item: T) => Box): readonly (readonly [T, T])[] {
  return items.flatMap((one, index) => others(index).flatMap((other) => (overlap(boxOf(one), boxOf(other)) ? [[one, other] as const] : [])))
}

describe.each(pictures)('the picture $name', ({ svg }) => {
  const states = findAll(svg, ({ attributes }) => attributes['data-state'] !== undefined).map(({ element }) => ({ element, outline: outlineOf(element) }))
  const texts = textBoxes(svg)

  it('draws no state over another', () => {
    expect(touching(states, (index) => states.slice(index + 1), ({ outline }) => outline).length).toBe(0)
  })

  it('keeps every text apart from every other, inside the picture, and out of states that are not its own', () => {
    expect(touching(texts, (index) => texts.slice(index + 1), ({ box }) => box)).toEqual([])
    const [width, height] = [Number(svg.attributes.width), Number(svg.attributes.height)]
    expect(texts.filter(({ box }) => box.x < 0 || box.y < 0 || box.x + box.width > width || box.y + box.height > height)).toEqual([])
    const own = states.flatMap(({ element, outline }) => textBoxes(element).map(({ box }) => ({ box, outline })))
    expect(own.filter(({ box, outline }) => box.x < outline.x || box.x + box.width > outline.x + outline.width)).toEqual([])
    const ownTexts = new Set(states.flatMap(({ element }) => textBoxes(element).map(({ text, box }) => `${text} ${box.x} ${box.y}`)))
    const between = texts.filter(({ text, box }) => !ownTexts.has(`${text} ${box.x} ${box.y}`))
    expect(between.filter(({ box }) => states.some(({ outline }) => overlap(box, outline)))).toEqual([])
  })

  it('is no wider than can be read on a page', () => {
    expect(Number(svg.attributes.width)).toBeLessThanOrEqual(960)
  })

  it('says in words what it shows', () => {
    const [title, desc] = ['title', 'desc'].map((name) => findAll(svg, (element) => element.name === name).map(({ element }) => textOf(element)))
    expect(title).toHaveLength(1)
    const names = new Set(states.map(({ element }) => element.attributes['data-state'] ?? '').filter((name) => !name.startsWith('to ')))
    expect([...names].filter((name) => desc?.[0]?.includes(` ${name} `) !== true)).toEqual([])
  })
})
