// About 20 % of the maximum: common practice, no source. One set of six at half of today's load: our choice.
import { describe, expect, it } from 'vitest'
import type { Dose, Load } from '#src/domain/dose.ts'
import type { Equipment } from '#src/domain/plan.ts'
import { warmUpLoad, type WarmUpFacts } from '#src/rules/warm-up-load.ts'
import { extensionPlan, novice } from '../support/sample-chain.ts'
import { assumed, maximumOf } from './load-facts.ts'

const { equipment } = extensionPlan

function warmedUp(load: Load, maximumN: number | null, own: Equipment = equipment, reps = 8): Dose | null {
  const facts: WarmUpFacts = { ladder: 'extension', protocol: novice(), equipment: own, assumptions: assumed, maximum: maximumN === null ? null : maximumOf(maximumN) }
  return warmUpLoad({ sets: 3, reps, holdSeconds: null, load }, facts)
}

function mass(kilograms: number): Load {
  return { kind: 'mass', kilograms, plates: [] }
}

function force(newtons: number): Load {
  return { kind: 'force', newtons, band: 'medium', stretchCm: 20 }
}

describe('the loaded warm-up', () => {
  it('is one set of six with what the client owns', () => {
    expect(warmedUp(mass(2.4), 120)).toEqual({
      sets: 1,
      reps: 6,
      holdSeconds: null,
      load: { kind: 'mass', kilograms: 1.15, plates: [0.5, 0.25] },
    })
  })

  it('has no more repetitions than the work it is for', () => {
    expect([4, 6, 7].map((reps) => warmedUp(mass(2.4), 120, equipment, reps)?.reps)).toEqual([4, 6, 6])
  })

  it.each<readonly [string, Load, number | null, Load | null]>([
    ['is at most half of today’s load', mass(2.9), 120, { kind: 'mass', kilograms: 1.4, plates: [1] }],
    // 20 % of 50 N is 10 N, which hangs as 1.02 kg.
    ['is at most a fifth of the maximum', mass(2.9), 50, { kind: 'mass', kilograms: 0.9, plates: [0.5] }],
    ['needs no measured maximum', mass(2.9), null, { kind: 'mass', kilograms: 1.4, plates: [1] }],
    ['may be the empty harness', mass(0.8), 120, { kind: 'mass', kilograms: 0.4, plates: [] }],
    ['is none where the empty harness is more than half', mass(0.65), 120, null],
    ['is done with whichever band is weak enough', force(19.6), 120, { kind: 'force', newtons: 9.6, band: 'light', stretchCm: 15 }],
    // 20 % of 45 N is 9 N.
    ['of a band is at most a fifth of the maximum', force(30), 45, { kind: 'force', newtons: 9, band: 'light', stretchCm: 13 }],
    ['is none where no band is weak enough', force(15.9), 120, null],
    ['is none for a push', { kind: 'push', effort: 5 }, 120, null],
    ['is none without a load', { kind: 'none' }, 120, null],
  ])('%s', (_, load, maximumN, expected) => {
    expect(warmedUp(load, maximumN)?.load ?? null).toEqual(expected)
  })
})
