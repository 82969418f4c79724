// Warm-up 20 %, start 20 %, ceiling 45 % and hard bound 75 % are common practice, no source. Moments are worked out by hand:
// the head of 4.858 kg weighs 47.64 N and turns with 4.042 Nm at 45 degrees, with 2.858 Nm at 30.
import { describe, expect, it } from 'vitest'
import type { Load } from '#src/domain/dose.ts'
import type { Protocol } from '#src/domain/protocol.ts'
import { loadTable } from '#src/rules/load-table.ts'
import { neckMoment, workingLoads, workingShares, type LoadQuestion } from '#src/rules/working-load.ts'
import { extensionPlan, novice } from '../support/sample-chain.ts'
import { assumed, maximumOf } from './load-facts.ts'

const protocol = novice()
const harness: LoadQuestion = { ladder: 'extension', tool: 'harness', posture: { headTiltDegrees: 45 }, protocol, maximum: maximumOf(120), assumptions: assumed }

function rounded(loads: Readonly<Record<string, number>>): Readonly<Record<string, number>> {
  return Object.fromEntries(Object.entries(loads).map(([key, value]) => [key, Math.round(value * 100) / 100]))
}

function working(target: number, ceiling: number): Protocol {
  return { ...protocol, working: { ...protocol.working, extension: { warmUp: 0.2, target } }, maximum: { ...protocol.maximum, ceiling } }
}

describe('the shares of the maximum', () => {
  it.each([
    ['stay at the target below the ceiling', 0.4, 0.45, { warmUp: 0.2, start: 0.2, target: 0.4 }],
    ['never pass the automatic ceiling', 0.75, 0.45, { warmUp: 0.2, start: 0.2, target: 0.45 }],
    ['begin no higher than they end', 0.15, 0.45, { warmUp: 0.15, start: 0.15, target: 0.15 }],
  ])('%s', (_, target, ceiling, expected) => {
    expect(workingShares('extension', working(target, ceiling))).toEqual(expected)
  })
})

describe('the working loads', () => {
  it.each<readonly [string, Partial<LoadQuestion>, object]>([
    ['count the head in the target of a harness', {}, { warmUp: 2.45, start: 2.45, target: 2.93 }],
    ['count the head in the target of a band', { tool: 'band', posture: { headTiltDegrees: 30 } }, { warmUp: 24, start: 24, target: 36.13 }],
    ['are the plain shares where the head is carried', { posture: null }, { warmUp: 2.45, start: 2.45, target: 5.51 }],
    ['never begin above the target', { maximum: maximumOf(80) }, { warmUp: 1.09, start: 1.09, target: 1.09 }],
    ['leave nothing where the head alone is too much', { maximum: maximumOf(56) }, { warmUp: -0.01, start: -0.01, target: -0.01 }],
    ['fall with a longer lever arm', { assumptions: { ...assumed, harnessLeverCm: 20 } }, { warmUp: 1.96, start: 1.96, target: 2.34 }],
    ['fall with a heavier head', { assumptions: { ...assumed, bodyKg: 100 } }, { warmUp: 1.83, start: 1.83, target: 1.83 }],
  ])('%s', (_, changes, expected) => {
    expect(rounded(workingLoads({ ...harness, ...changes }))).toEqual(expected)
  })
})

describe('the moment at the neck', () => {
  it.each<readonly [Load, number]>([
    [{ kind: 'none' }, 4.042],
    [{ kind: 'push', effort: 5 }, 4.042],
    [{ kind: 'mass', kilograms: 1, plates: [] }, 5.611],
    [{ kind: 'force', newtons: 10, band: 'a', stretchCm: 1 }, 5.642],
  ])('of %o is that of the load and of the head', (load, newtonMetres) => {
    expect(neckMoment(load, { headTiltDegrees: 45 }, assumed)).toBeCloseTo(newtonMetres, 2)
  })
})

describe('what a therapist is shown', () => {
  it('is the load of each share, and the most the client owns that is not above it', () => {
    const { headShareOfMaximum, rows } = loadTable(harness, extensionPlan.equipment)
    expect(headShareOfMaximum).toBeCloseTo(0.2105, 4)
    expect(rows.map(({ purpose, share, external, owned }) => [purpose, share, external?.toFixed(2), owned?.kind === 'mass' ? owned.kilograms : null])).toEqual([
      ['warmUp', 0.2, '2.45', 2.4],
      ['start', 0.2, '2.45', 2.4],
      ['target', 0.45, '2.93', 2.9],
    ])
  })

  it('is no load where the head alone is the target, and none owned where the least is above it', () => {
    const weak = [56, 60].map((force) => loadTable({ ...harness, maximum: maximumOf(force) }, extensionPlan.equipment).rows.at(-1))
    expect(weak).toEqual([
      { purpose: 'target', share: 0.45, external: null, owned: null },
      { purpose: 'target', share: 0.45, external: expect.closeTo(0.177, 3), owned: null },
    ])
  })
})
