import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { appendKept, keepJson, writeJson } from '#src/stores/keep-json.ts'

const byText = (value: unknown): unknown => JSON.parse(JSON.stringify(value))

describe('a copy of what JSON can hold', () => {
  it('is what the text would bring back, whatever the value', () => {
    const strange = fc.constantFrom(undefined, Number.NaN, -Infinity, -0, new Date(0), new Map([[1, 2]]), () => 1, Symbol('s'), Object.create(null))
    const values = fc.object({ maxDepth: 4, withNullPrototype: true, withSparseArray: true, values: [fc.jsonValue(), strange, fc.double(), fc.string({ unit: 'binary' })] })
    fc.assert(
      fc.property(values, (value) => {
        expect(keepJson(value)).toStrictEqual(byText(value))
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
    const copy = keepJson<unknown>(value)
    expect(JSON.stringify(copy)).toBe(JSON.stringify(value))
    expect(copy).toStrictEqual(byText(value))
  })

  it('is not reached by changes to what it was made of, and cannot be changed itself', () => {
    const value = { list: [{ a: 1 }], inner: { deep: { b: 2 } } }
    const copy = keepJson(value)
    value.list[0] = { a: 9 }
    value.inner.deep.b = 9
    expect(copy).toEqual({ list: [{ a: 1 }], inner: { deep: { b: 2 } } })
    expect(() => (copy.inner.deep.b = 9)).toThrow(TypeError)
    expect(() => copy.list.push({ a: 2 })).toThrow(TypeError)
  })

  it.each([['plain', { list: [{ a: {} }] }], ['by the text', JSON.parse('{"a":{"__proto__":{"b":{}}}}')], ['by itself', { own: { toJSON: () => ({ c: { d: [] } }) } }]])('is frozen all through: %s', (_name, value) => {
    const isFrozen = (part: unknown): boolean => typeof part !== 'object' || part === null || (Object.isFrozen(part) && Object.values(part).every(isFrozen))
    expect(isFrozen(keepJson<unknown>(value))).toBe(true)
  })

  it('shares what it has kept before, and nothing of anybody else’s, frozen or not', () => {
    const first = keepJson({ plan: { directions: Array.from({ length: 9 }, () => ({})) }, count: 1 })
    const others = Object.freeze({ list: Object.freeze(Array.from({ length: 9 }, () => ({ a: 1 }))) })
    const second = keepJson({ ...first, count: 2, others })
    expect(second).toEqual({ ...first, count: 2, others })
    expect(second.plan).toBe(first.plan)
    expect(second.others).not.toBe(others)
    expect(second.others.list[0]).not.toBe(others.list[0])
  })

  it.each([undefined, () => 1, 1n, { big: 1n }])('refuses what is no JSON at all: %s', (value) => {
    expect(() => keepJson<unknown>(value)).toThrow()
  })
})

describe('what is written', () => {
  it('is the very text that JSON.stringify gives, whatever was kept, changed and written before', () => {
    const values = fc.dictionary(fc.string({ unit: 'binary' }), fc.jsonValue({ maxDepth: 5 }), { minKeys: 1, maxKeys: 12 })
    fc.assert(
      fc.property(values, values, fc.nat(11), (value, other, place) => {
        const first = keepJson<Record<string, unknown>>(value)
        expect(writeJson(first)).toBe(JSON.stringify(value))
        const key = Object.keys(value)[place % Object.keys(value).length] as string
        const changed = { ...first, [key]: { ...other, inner: first[key] }, nothing: undefined }
        for (const next of [changed, keepJson(changed), { wrapped: keepJson(changed), list: [first] }]) {
          expect(writeJson(next)).toBe(JSON.stringify(next))
        }
      }),
      { seed: 20261128, numRuns: 2000 },
    )
  })

  it.each([
    ['a document longer than what is remembered', { lists: Array.from({ length: 300 }, (_, index) => ({ index, parts: [{}, {}, {}, {}, {}] })) }],
    ['nothing', {}],
    ['a list', [{ a: [] }, null]],
    ['what says itself what it is', { at: new Date(0), none: undefined, not: Number.NaN, call: () => 1 }],
  ])('keeps %s as JSON does', (_name, value) => {
    expect(writeJson(value)).toBe(JSON.stringify(value))
    expect(writeJson(keepJson<object>(value))).toBe(JSON.stringify(value))
    expect(writeJson(keepJson<object>(value))).toBe(JSON.stringify(value))
  })
})

describe('a list that grows at its end and is cut at its beginning', () => {
  it('holds what it would and is written as JSON.stringify does, whatever it began with and however much comes at once', () => {
    const part = fc.oneof(fc.string({ unit: 'binary' }), fc.array(fc.jsonValue({ maxDepth: 2 })), fc.dictionary(fc.string(), fc.jsonValue({ maxDepth: 2 })))
    const most = fc.oneof(fc.nat(6), fc.constant(Infinity))
    fc.assert(
      fc.property(fc.array(part), fc.array(fc.array(part, { maxLength: 8 }), { maxLength: 8 }), most, (first, additions, limit) => {
        let list: readonly (string | object)[] = first
        for (const more of additions) {
          const expected = [...list, ...more]
          const next = appendKept(list, more, limit)
          expect(next).toStrictEqual(limit === 0 ? [] : expected.slice(-limit))
          expect(writeJson(next)).toBe(JSON.stringify(next))
          expect(writeJson({ next })).toBe(JSON.stringify({ next }))
          list = next
        }
      }),
      { seed: 20261128, numRuns: 500 },
    )
  })

  it('leaves the list it was made of, and its text, as they were', () => {
    const first = appendKept([], [{ a: 1 }])
    appendKept(first, [{ a: 2 }])
    appendKept(first, [{ a: 3 }], 1)
    expect(first).toStrictEqual([{ a: 1 }])
    expect(writeJson(first)).toBe('[{"a":1}]')
  })
})
