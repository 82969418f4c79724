import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { copyJson } from '#src/stores/copy-json.ts'

const byText = (value: unknown): unknown => JSON.parse(JSON.stringify(value))

describe('a copy of what JSON can hold', () => {
  it('is what the text would bring back, whatever the value', () => {
    const strange = fc.constantFrom(undefined, Number.NaN, -Infinity, -0, new Date(0), new Map([[1, 2]]), () => 1, Symbol('s'), Object.create(null))
    const values = fc.object({ maxDepth: 4, withNullPrototype: true, withSparseArray: true, values: [fc.jsonValue(), strange, fc.double(), fc.string({ unit: 'binary' })] })
    fc.assert(
      fc.property(values, (value) => {
        expect(copyJson(value)).toStrictEqual(byText(value))
      }),
      { seed: 20261128, numRuns: 2000 },
    )
  })

  it.each([
    ['a key named as the prototype', JSON.parse('{"a":{"__proto__":{"b":1}}}')],
    ['values that say themselves what they are in JSON', { at: new Date(0), own: { toJSON: () => ({ c: 1 }) } }],
    ['half a surrogate pair', ['\uD800', { '\uDC00': '\uD83D' }]],
    ['a list with holes and nothings', Object.assign(new Array<unknown>(6), { 2: () => 1, 3: Symbol('s'), 4: null })],
    ['a minus zero', { zero: -0 }],
  ])('keeps %s as the text would', (_name, value) => {
    const copy = copyJson<unknown>(value)
    expect(JSON.stringify(copy)).toBe(JSON.stringify(value))
    expect(copy).toStrictEqual(byText(value))
  })

  it('shares nothing with what it copies', () => {
    const value = { list: [{ a: 1 }], inner: { deep: { b: 2 } } }
    const copy = copyJson(value)
    copy.list[0] = { a: 9 }
    copy.inner.deep.b = 9
    expect(value).toEqual({ list: [{ a: 1 }], inner: { deep: { b: 2 } } })
  })

  it.each([undefined, () => 1, 1n, { big: 1n }])('refuses what is no JSON at all: %s', (value) => {
    expect(() => copyJson<unknown>(value)).toThrow()
  })
})
