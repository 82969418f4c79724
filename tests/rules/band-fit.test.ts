// What a band must be able to do follows from the ladder defaults, our choice: entered at 15 % of the maximum, left from 20 %,
// never above the target with the head (2.858 Nm at 30 degrees), never outside the two measured stretches.
import { describe, expect, it } from 'vitest'
import type { Band } from '#src/domain/plan.ts'
import { bandFit } from '#src/rules/band-fit.ts'
import type { LoadedRung } from '#src/rules/loaded-climb.ts'
import { extensionPlan, novice } from '../support/sample-chain.ts'
import { assumed, maximumOf } from './load-facts.ts'

function band(nearN: number, farN: number): Band {
  return { id: 'own', points: [{ stretchCm: 10, forceN: nearN }, { stretchCm: 60, forceN: farN }] }
}

function rung(bands: readonly Band[], maximumN: number | null): LoadedRung {
  const given = { ladder: 'extension', posture: { headTiltDegrees: 30 }, protocol: novice(), assumptions: assumed, targetKg: null, reachedNm: null } as const
  return { ...given, equipment: { ...extensionPlan.equipment, bands }, maximum: maximumN === null ? null : maximumOf(maximumN) }
}

describe('a band', () => {
  it.each<readonly [string, readonly Band[], number | null, object]>([
    ['serves from 15 to 20 % of the maximum', [band(8, 24)], 100, { kind: 'serves' }],
    ['serves without a measured maximum', [band(8, 24)], null, { kind: 'serves' }],
    ['that gives no load at all is told', [], 100, { kind: 'no-stretch' }],
    ['whose least is above the target is told', [band(8, 24)], 57, { kind: 'too-strong', leastN: 8 }],
    ['whose least is above the entry limit is told', [band(16, 30)], 100, { kind: 'starts-high', leastN: 16, limitN: 15 }],
    ['that does not reach 20 % is told', [band(8, 19.9)], 100, { kind: 'ends-low', mostN: 19.9, neededN: 20 }],
    ['that reaches it is not', [band(8, 20)], 100, { kind: 'serves' }],
    ['with too few steps is told', [band(8, 8.6)], null, { kind: 'ends-low', mostN: 8.6, neededN: null }],
  ])('%s', (_, bands, maximumN, expected) => {
    expect(bandFit(rung(bands, maximumN))).toEqual(expected)
  })
})
