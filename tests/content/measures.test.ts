import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { measuresSchema } from '#src/content/measures-schema.ts'
import { readShaped } from '#src/content/read-shaped.ts'
import { measureIds } from '#src/domain/measure.ts'
import { lineIn, shippedContent } from '#tests/support/content-copy.ts'

const file = 'content/measures.yaml'
const shipped = readFileSync(join(shippedContent, 'measures.yaml'), 'utf8')
const figure = 'important: { value: 1.3, certainty: found }'

function problemsWith(text: string): readonly string[] {
  const reading = readShaped(text, file, measuresSchema)
  return reading.kind === 'read' ? [] : reading.problems.map(({ line, path, message }) => `${line} ${path} ${message}`)
}

describe('the outcome measures', () => {
  it('stand under their own names, each on a scale that its limits fit', () => {
    const reading = readShaped(shipped, file, measuresSchema)
    expect(reading.kind === 'read' && Object.entries(reading.value.of).map(([id, measure]) => [id, measure.id])).toEqual(measureIds.map((id) => [id, id]))
  })

  it.each([
    ['a certainty that is only faint', figure, 'important: { value: 1.3, certainty: "memory:low" }', 'certainty'],
    ['a figure without certainty', figure, 'important: { value: 1.3 }', 'certainty'],
    ['a figure of 0', figure, 'important: { value: 0, certainty: found }', 'value'],
    ['per cent in place of points', figure, 'important: { value: 19, certainty: found }', 'important'],
    ['a group that nobody knows', 'population: mechanical-neck-pain', 'population: everybody', 'population'],
    ['a source without a citation', 'citation: "Cleland JA 2008, Arch Phys Med Rehabil 89:69-74"', 'citation: ""', 'citation'],
  ])('with %s are refused, with the line', (_title, from, to, key) => {
    const text = shipped.replace(from, () => to)
    const [problem, ...others] = problemsWith(text)
    expect(others).toEqual([])
    expect(problem).toMatch(new RegExp(`^${lineIn(text, to)} measures\\.pain\\.sources\\[0\\]\\.(important\\.)?${key} `))
  })

  it('with a source twice are refused', () => {
    const text = shipped.replace('id: young-2010', () => 'id: cleland-2008')
    expect(problemsWith(text)).toEqual([`${lineIn(text, 'id: cleland-2008\n        citation: "Young')} measures.pain.sources[1].id stands twice`])
  })

  it('without one of them are refused', () => {
    expect(problemsWith(shipped.slice(0, shipped.indexOf('  # -7 to 7,')))).not.toEqual([])
  })
})
