// Between two measured points force follows stretch in a straight line (Uchida 2016, worked out again in tests/evidence);
// the steps of 1 cm and the choice of plates are our own.
import { describe, expect, it } from 'vitest'
import type { Band, Equipment } from '#src/domain/plan.ts'
import { bandLoads, bestLoad, harnessLoads, type LoadTarget } from '#src/rules/available-loads.ts'

const equipment: Equipment = { platesKg: [], harnessKg: 0.4, bands: [], hasSupport: true, stepCm: 30 }

function band(id: string, ...points: readonly [number, number, number, number]): Band {
  const [nearCm, nearN, farCm, farN] = points
  return { id, points: [{ stretchCm: nearCm, forceN: nearN }, { stretchCm: farCm, forceN: farN }] }
}

describe('the forces of bands', () => {
  it('are in steps of a centimetre between the two measured points, and never outside them', () => {
    expect(bandLoads([band('a', 10, 8, 14, 10)])).toEqual([
      { kind: 'force', newtons: 8, band: 'a', stretchCm: 10 },
      { kind: 'force', newtons: 8.5, band: 'a', stretchCm: 11 },
      { kind: 'force', newtons: 9, band: 'a', stretchCm: 12 },
      { kind: 'force', newtons: 9.5, band: 'a', stretchCm: 13 },
      { kind: 'force', newtons: 10, band: 'a', stretchCm: 14 },
    ])
  })

  it('begin at the first whole centimetre and are kept to a tenth of a newton', () => {
    expect(bandLoads([band('a', 9.5, 8, 11.5, 9)])).toEqual([
      { kind: 'force', newtons: 8.3, band: 'a', stretchCm: 10 },
      { kind: 'force', newtons: 8.8, band: 'a', stretchCm: 11 },
    ])
  })

  it('of two bands are in one order', () => {
    const loads = bandLoads([band('strong', 10, 9, 11, 12), band('light', 10, 8, 11, 10)])
    expect(loads.map((load) => `${load.newtons} ${load.band}`)).toEqual(['8 light', '9 strong', '10 light', '12 strong'])
  })

  it('are none without a band', () => {
    expect(bandLoads([])).toEqual([])
  })
})

describe('the weights of a harness', () => {
  it.each<readonly [string, readonly number[], readonly string[]]>([
    ['are the empty one without plates', [], ['0.4: ']],
    ['are every sum of plates, each used once', [0.5, 1], ['0.4: ', '0.9: 0.5', '1.4: 1', '1.9: 1 0.5']],
    ['count two equal plates as two', [0.5, 0.5], ['0.4: ', '0.9: 0.5', '1.4: 0.5 0.5']],
    ['take the fewest plates for a sum', [0.5, 0.5, 1], ['0.4: ', '0.9: 0.5', '1.4: 1', '1.9: 1 0.5', '2.4: 1 0.5 0.5']],
    ['keep to that, and to their order, whichever plate is listed first', [1, 0.5, 0.5], ['0.4: ', '0.9: 0.5', '1.4: 1', '1.9: 1 0.5', '2.4: 1 0.5 0.5']],
    ['are kept to the gram', [0.1, 0.2], ['0.4: ', '0.5: 0.1', '0.6: 0.2', '0.7: 0.2 0.1']],
  ])('%s', (_, platesKg, expected) => {
    const loads = harnessLoads({ ...equipment, platesKg })
    expect(loads.map((load) => `${load.kilograms}: ${load.plates.join(' ')}`)).toEqual(expected)
  })

  it('take the plates listed first where two sums are alike in number', () => {
    const loads = harnessLoads({ ...equipment, platesKg: [1, 2, 0.5, 2.5] })
    expect(loads.find((load) => load.kilograms === 3.4)).toEqual({ kind: 'mass', kilograms: 3.4, plates: [2, 1] })
  })

  it('are none without a harness', () => {
    expect(harnessLoads({ ...equipment, harnessKg: null, platesKg: [1] })).toEqual([])
  })
})

describe('collars', () => {
  it('hang with the first plate, once, and not on the empty harness', () => {
    const loads = harnessLoads({ ...equipment, platesKg: [0.5, 1], collarsKg: 0.15 })
    expect(loads.map((load) => load.kilograms)).toEqual([0.4, 1.05, 1.55, 2.05])
  })
})

describe('the best load', () => {
  const owned: Equipment = { ...equipment, platesKg: [0.5, 1, 1], bands: [band('a', 10, 8, 14, 10), band('b', 10, 9, 11, 12)] }

  it.each<readonly [string, LoadTarget, object | null]>([
    ['is the target itself where it is owned', { kind: 'mass', kilograms: 1.9 }, { kind: 'mass', kilograms: 1.9, plates: [1, 0.5] }],
    ['is the highest sum not above it', { kind: 'mass', kilograms: 2.39 }, { kind: 'mass', kilograms: 1.9, plates: [1, 0.5] }],
    ['is the empty harness below every plate', { kind: 'mass', kilograms: 0.5 }, { kind: 'mass', kilograms: 0.4, plates: [] }],
    ['is none below the empty harness', { kind: 'mass', kilograms: 0.39 }, null],
    ['of bands is the highest force not above it, whichever the band', { kind: 'force', newtons: 9.4 }, { kind: 'force', newtons: 9, band: 'b', stretchCm: 10 }],
    ['of bands is none below the least', { kind: 'force', newtons: 7.9 }, null],
    ['of bands is never stretched beyond what was measured', { kind: 'force', newtons: 50 }, { kind: 'force', newtons: 12, band: 'b', stretchCm: 11 }],
  ])('%s', (_, target, expected) => {
    expect(bestLoad(target, owned)).toEqual(expected)
  })
})
