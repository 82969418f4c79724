// Entry up to 15 % of the maximum on a band, target 45 %, start 20 %, 10 kg on a harness: our choice, for a clinician to review.
// Band and harness pull at one metre here, so that a maximum can be written as the kilograms hung there that it just holds.
import { describe, expect, it } from 'vitest'
import type { Assumptions } from '#src/domain/assumptions.ts'
import type { Equipment } from '#src/domain/plan.ts'
import { loadedClimb, type LoadedRung } from '#src/rules/loaded-climb.ts'
import type { Maximum } from '#src/rules/usable-maximum.ts'
import { novice } from '../support/sample-chain.ts'
import { assumed, headless } from './load-facts.ts'

const none: Equipment = { platesKg: [], harnessKg: null, bands: [], hasSupport: true, stepCm: null }
const weightless: Assumptions = { ...headless, bandLeverCm: 100, harnessLeverCm: 100 }
/** A head of 2 kg at the same metre; lying flat, all of it turns the neck. */
const heavy: Assumptions = { ...assumed, bodyKg: 40, headShare: 0.05, headLeverCm: 100, bandLeverCm: 100, harnessLeverCm: 100 }
const lying = { headTiltDegrees: 90 }

const standardGravity = 9.80665

function strength(newtons: number): Maximum {
  const own = { forceN: newtons, momentNm: newtons }
  return { ...own, lowest: own }
}

function hanging(kilograms: number): Maximum {
  return strength(kilograms * standardGravity)
}

function rung(changes: Partial<LoadedRung>): LoadedRung {
  return { ladder: 'extension', posture: null, equipment: none, protocol: novice(), maximum: null, assumptions: weightless, targetKg: null, reachedNm: null, ...changes }
}

function harness(harnessKg: number, ...platesKg: readonly number[]): { readonly equipment: Equipment } {
  return { equipment: { ...none, harnessKg, platesKg } }
}

/** The kilograms of the harness in order; `!` where its entry is too high, `…` where it can be left for the rung above. */
function harnessText(changes: Partial<LoadedRung>): string {
  const { steps, isEntryTooHigh, canBeLeft } = loadedClimb.harness(rung(changes))
  const loads = steps.map(({ load }) => (load.kind === 'mass' ? load.kilograms : load.kind))
  return `${loads.join(' ')}${isEntryTooHigh ? '!' : ''}${canBeLeft ? ' …' : ''}`
}

describe('a rung without its tool', () => {
  it.each(['band', 'harness'] as const)('of a %s is passed over, and closes nothing above', (tool) => {
    expect(loadedClimb[tool](rung({}))).toEqual({ steps: [], isEntryTooHigh: false, canBeLeft: true })
  })
})

describe('a band', () => {
  const from9N: Equipment = { ...none, bands: [{ id: 'a', points: [{ stretchCm: 10, forceN: 9 }, { stretchCm: 11, forceN: 12 }] }] }

  it.each([
    ['of 45 % of the maximum at its least is entered with approval', 20, ['9']],
    ['above 45 % at its least is not entered at all', 19.9, []],
  ])('%s', (_, newtons, expected) => {
    const { steps, isEntryTooHigh } = loadedClimb.band(rung({ equipment: from9N, maximum: strength(newtons) }))
    expect(steps.map(({ load }) => (load.kind === 'force' ? String(load.newtons) : load.kind))).toEqual(expected)
    expect(isEntryTooHigh).toBe(expected.length > 0)
  })

  // 0.15 × 62 is 9.299999999999999 to a computer.
  it('is entered at a force of exactly 15 % of the maximum', () => {
    const fine: Equipment = { ...none, bands: [{ id: 'a', points: [{ stretchCm: 10, forceN: 9.2 }, { stretchCm: 12, forceN: 9.4 }] }] }
    const [entry] = loadedClimb.band(rung({ equipment: fine, maximum: strength(62) })).steps
    expect(entry?.load).toMatchObject({ newtons: 9.3 })
  })

  // 0.2 × 106 is 21.200000000000003 to a computer.
  it('is left at a force of exactly 20 % of the maximum', () => {
    const endingAt = (forceN: number): Equipment => ({ ...none, bands: [{ id: 'a', points: [{ stretchCm: 10, forceN: 15.9 }, { stretchCm: 20, forceN }] }] })
    const left = [21.1, 21.2].map((forceN) => loadedClimb.band(rung({ equipment: endingAt(forceN), maximum: strength(106) })).canBeLeft)
    expect(left).toEqual([false, true])
  })
})

describe('the entry of a harness', () => {
  it.each<readonly [string, Partial<LoadedRung>, string]>([
    // 20 % of 4 kg is 0.8 kg, and 45 % of 2 kg is 0.9 kg.
    ['at 20 % of the maximum is not too high', { ...harness(0.8), maximum: hanging(4) }, '0.8'],
    ['above 20 % is', { ...harness(0.81), maximum: hanging(4) }, '0.81!'],
    ['at 45 % is all there is', { ...harness(0.9), maximum: hanging(2) }, '0.9! …'],
    ['above 45 % is too much, and closes all above', { ...harness(0.91), maximum: hanging(2) }, ''],
    ['at the weight that the therapist states is all there is', { ...harness(0.4, 0.5), targetKg: 0.4 }, '0.4 …'],
    ['above the weight that the therapist states is too much, and closes all above', { ...harness(0.4, 0.5), targetKg: 0.39 }, ''],
    // Half a kilogram hung at a metre.
    ['as hard as the last of the band is not too high', { ...harness(0.5), reachedNm: 4.903325 }, '0.5'],
    ['harder than the last of the band is', { ...harness(0.5), reachedNm: 4.9 }, '0.5!'],
  ])('%s', (_, changes, expected) => {
    expect(harnessText(changes)).toBe(expected)
  })
})

describe('the end of a harness', () => {
  it.each<readonly [string, Partial<LoadedRung>, string]>([
    ['is the weight that the therapist states, where it is owned', { ...harness(0.4, 0.5, 1.5), targetKg: 1.9 }, '0.4 0.9 1.9 …'],
    ['is the last below that weight, where it is not', { ...harness(0.4, 0.5, 1.5), targetKg: 1.89 }, '0.4 0.9'],
    ['is the limit of 10 kg itself, where it is owned', harness(0.5, 9.5), '0.5 10'],
    ['is the last below 10 kg, where it is not', harness(0.5, 9.51), '0.5'],
    // Nine tenths of 1.6 kg are 1.4400000000000002 kg to a computer.
    ['may be a step of exactly 10 % below that weight', { ...harness(1, 0.44), targetKg: 1.6 }, '1 1.44 …'],
    ['may not be a gram further below it', { ...harness(1, 0.439), targetKg: 1.6 }, '1 1.439'],
    // 45 % of 20 kg is 9 kg, nine tenths of which are 8.1 kg.
    ['may be a step of 10 % below the target', { ...harness(0.1, 8), maximum: hanging(20) }, '0.1 8.1 …'],
    ['may not be further below the target', { ...harness(0.1, 7.99), maximum: hanging(20) }, '0.1 8.09'],
  ])('%s', (_, changes, expected) => {
    expect(harnessText(changes)).toBe(expected)
  })

  // 45 % of 10 kg less a head of 2 kg leaves 2.5 kg. Nine tenths of that are 2.25 kg; nine tenths of 4.5 kg, head and load
  // together, less the head are 2.05 kg.
  it.each<readonly [string, number | null, number, string]>([
    ['by the maximum is judged with the head', null, 2.05, '0.1 2.05 …'],
    ['by the maximum is not met below that', null, 2.04, '0.1 2.04'],
    ['as stated, even at the very maximum, is judged by the load alone', 2.5, 2.25, '0.1 2.25 …'],
    ['as stated is not met below that', 2.5, 2.24, '0.1 2.24'],
    ['as stated above the maximum is judged with the head again', 2.51, 2.05, '0.1 2.05 …'],
  ])('%s', (_, targetKg, topKg, expected) => {
    const changes = { ...harness(0.1, topKg - 0.1), maximum: hanging(10), assumptions: heavy, posture: lying, targetKg }
    expect(harnessText(changes)).toBe(expected)
  })
})
