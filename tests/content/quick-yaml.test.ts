// What is read the quick way is what the other library reads, and what that one has to judge is left to it.
import { isDeepStrictEqual } from 'node:util'
import { readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { isScalar, parseDocument, visit } from 'yaml'
import { readQuickly } from '#src/content/quick-yaml.ts'
import { shippedContent } from '#tests/support/content-copy.ts'

const files = readdirSync(shippedContent, { recursive: true, encoding: 'utf8' }).filter((name) => name.endsWith('.yaml'))
const textOf = (file: string): string => readFileSync(join(shippedContent, file), 'utf8')

/** Null where it refuses, or would name a key as nobody does. */
function readStrictly(text: string): { readonly value: unknown } | null {
  const document = parseDocument(text, { prettyErrors: false, uniqueKeys: true })
  let isOdd = false
  // The two name these keys differently, and no content of ours knows either name: it is refused by what comes behind.
  visit(document, { Pair: (_, { key }) => void (isOdd ||= !isScalar(key) || key.value === null) })
  if (isOdd || document.errors.length + document.warnings.length > 0) return null
  try {
    return { value: document.toJS() }
  } catch {
    // An alias without its anchor.
    return null
  }
}

it('reads all content that is shipped alike, and hardly any of it slowly', () => {
  const different = files.filter((file) => !isDeepStrictEqual(readQuickly(textOf(file)) ?? readStrictly(textOf(file)), readStrictly(textOf(file))))
  expect(different).toEqual([])
  expect(files.filter((file) => readQuickly(textOf(file)) === null)).toEqual([])
})

describe('is left to the other library', () => {
  it.each([
    ['nothing', ''],
    ['a key twice', 'a: 1\na: 2'],
    ['a tab', 'a:\n\tb: 1'],
    ['an anchor', 'a: &x 1\nb: *x'],
    ['a tag', 'a: !!str 1'],
    ['a map where a text stands', 'a: b: c'],
    ['a list that does not end', 'a: [1, 2'],
    ['quotes that do not end', 'a: "b'],
    ['a number written otherwise', 'a: 1_000\nb: 0b1'],
    ['two documents', 'a: 1\n---\nb: 2'],
    ['a directive', '%YAML 1.1\n---\na: 1'],
  ])('%s', (_what, text) => {
    expect(readQuickly(text)).toBeNull()
  })
})

it('reads alike whatever both take, wherever a hand slips in the content', () => {
  const lines = files.map((file) => textOf(file).split('\n'))
  const signs = [' ', '  ', '\n', '\n  ', ':', ': ', '- ', '#', ' #', '"', "'", '[', ']', '{', '}', ',', '|-\n', '>-\n', '&', '*', '!', '~', 'null', '1', '-0', '.5', '1e3', '\\', '\\n', '---', '\t', '\u00A0', '_']
  const slip = fc.record({ place: fc.double({ min: 0, max: 1, noNaN: true }), sign: fc.constantFrom('', ...signs), lost: fc.nat(3) })
  const piece = fc.record({ file: fc.nat(lines.length - 1), from: fc.double({ min: 0, max: 1, noNaN: true }), length: fc.integer({ min: 1, max: 8 }), slips: fc.array(slip, { maxLength: 3 }) })
  let read = 0
  fc.assert(
    fc.property(piece, ({ file, from, length, slips }) => {
      const start = Math.floor(from * (lines[file]?.length ?? 0))
      const whole = lines[file]?.slice(start, start + length).join('\n') ?? ''
      const text = slips.reduce((before, { place, sign, lost }) => {
        const at = Math.floor(place * before.length)
        return before.slice(0, at) + sign + before.slice(at + lost)
      }, whole)
      const [quick, strict] = [readQuickly(text), readStrictly(text)]
      // Blanks and a sign alone are no content: a file of ours holds a map.
      if (quick === null || strict === null || quick.value === null) return
      read += 1
      expect(quick).toEqual(strict)
    }),
    // The same slips every time: a new difference, in what no content holds, is not to stop whoever changes something else.
    { numRuns: 3_000, seed: 20_261_128 },
  )
  expect(read).toBeGreaterThan(1_000)
})
