// Between two measured points force follows stretch in a straight line (Uchida 2016, worked out again in tests/evidence);
// the steps of 1 cm and the choice of plates are our own.
import { describe, expect, it } from 'vitest'
import type { Band, Equipment } from '#src/domain/plan.ts'
import { bandLoads, harnessLoads } from '#src/rules/available-loads.ts'

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
    ['are kept to the gram', [0.1, 0.2], ['0.4: ', '0.5: 0.1', '0.6: 0.2', '0.7: 0.2 0.1']],
  ])('%s', (_, platesKg, expected) => {
    const loads = harnessLoads({ ...equipment, platesKg })
    expect(loads.map((load) => `${load.kilograms}: ${load.plates.join(' ')}`)).toEqual(expected)
  })

  it('are none without a harness', () => {
    expect(harnessLoads({ ...equipment, harnessKg: null, platesKg: [1] })).toEqual([])
  })
})
