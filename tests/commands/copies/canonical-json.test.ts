import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { canonicalJson } from '#src/commands/copies/canonical-json.ts'

describe('canonical JSON', () => {
  // RFC 8785, section 3.2.2 (the sample with numbers, texts and literals) and 3.2.3 (sorting of keys). From memory of both; the
  // order follows from the UTF-16 code units that the section prescribes.
  it('writes the sample of RFC 8785, section 3.2', () => {
    const sample = { numbers: [Number('333333333.33333329'), 1e30, 4.5, 2e-3, 0.000000000000000000000000001], string: '\u20ac$\u000F\u000aA\'\u0042\u0022\u005c\\"/', literals: [null, true, false] }
    expect(canonicalJson(sample)).toBe('{"literals":[null,true,false],"numbers":[333333333.3333333,1e+30,4.5,0.002,1e-27],"string":"€$\\u000f\\nA\'B\\"\\\\\\\\\\"/"}')
  })

  it('sorts keys by their UTF-16 code units, as RFC 8785, section 3.2.3, does', () => {
    const sample = { '\u20ac': 'Euro Sign', '\r': 'Carriage Return', '\ufb33': 'Hebrew Letter Dalet With Dagesh', '1': 'One', '\ud83d\ude00': 'Emoji: Grinning Face', '\u0080': 'Control', '\u00f6': 'Latin Small Letter O With Diaeresis' }
    expect(Object.values(JSON.parse(canonicalJson(sample)) as object).toSorted()).toEqual(Object.values(sample).toSorted())
    const places = ['Carriage Return', 'One', 'Control', 'Latin Small', 'Euro Sign', 'Emoji', 'Hebrew'].map((name) => canonicalJson(sample).indexOf(name))
    expect(places).toEqual(places.toSorted((a, b) => a - b))
  })

  it('is one text for one value, and reads back as it', () => {
    fc.assert(
      fc.property(fc.jsonValue(), (value) => {
        const text = canonicalJson(value)
        expect(canonicalJson(JSON.parse(text))).toBe(text)
        expect(JSON.parse(text)).toEqual(JSON.parse(JSON.stringify(value)))
      }),
      { seed: 5 },
    )
  })

  it('does not depend on the order in which keys were put in', () => {
    expect(canonicalJson({ b: 1, a: { d: 2, c: 3 } })).toBe(canonicalJson({ a: { c: 3, d: 2 }, b: 1 }))
  })
})
