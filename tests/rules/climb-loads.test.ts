// ACSM 2009: 2-10 % more load at a time. What comes after larger steps is our choice.
import { describe, expect, it } from 'vitest'
import type { Load } from '#src/domain/dose.ts'
import { climbLoads } from '#src/rules/climb-loads.ts'
import { novice } from '../support/sample-chain.ts'

const protocol = novice()
type Mass = Extract<Load, { kind: 'mass' }>

/** An empty harness has no plates; everything else has one. */
function mass(kilograms: number, isEmpty = false): Mass {
  return { kind: 'mass', kilograms, plates: isEmpty ? [] : [kilograms] }
}

function force(newtons: number, band: string): Extract<Load, { kind: 'force' }> {
  return { kind: 'force', newtons, band, stretchCm: newtons }
}

/** Each load with the places beyond the range asked for before leaving it, and `!` where reaching it needs approval. */
function climbed(kilograms: readonly number[], { isEmpty = false, ceiling = Infinity } = {}): readonly string[] {
  const loads = kilograms.map((one, index) => mass(one, isEmpty && index === 0))
  const [entry = mass(0)] = loads
  return climbLoads(entry, loads, protocol, ceiling).map(({ load, beyondPlaces, needsApproval }) => `${load.kilograms}+${beyondPlaces}${needsApproval ? '!' : ''}`)
}

describe('a load step', () => {
  it.each<readonly [string, readonly number[], readonly string[]]>([
    ['of 10 % needs nothing beyond the range', [8, 8.8], ['8+0', '8.8+0']],
    ['above 10 % needs one place beyond', [8, 8.81], ['8+1', '8.81+0']],
    ['of 25 % needs one', [8, 10], ['8+1', '10+0']],
    ['above 25 % needs two', [8, 10.1], ['8+2', '10.1+0']],
    ['of 50 % needs no approval', [8, 12], ['8+2', '12+0']],
    ['above 50 % does', [8, 12.1], ['8+2', '12.1+0!']],
    ['is the largest up to 10 %', [8, 8.2, 8.5, 8.8, 9], ['8+0', '8.8+0', '9+0']],
    ['is the smallest there is where all are larger', [8, 10, 16], ['8+1', '10+2', '16+0!']],
  ])('%s', (_, kilograms, expected) => {
    expect(climbed(kilograms)).toEqual(expected)
  })
})

describe('the first plate on an empty harness', () => {
  it.each<readonly [string, readonly number[], boolean, readonly string[]]>([
    ['up to half a kilogram needs no approval', [0.4, 0.9], true, ['0.4+2', '0.9+0']],
    ['above half a kilogram does', [0.4, 0.95], true, ['0.4+2', '0.95+0!']],
    ['is no exception once a plate is on', [0.4, 0.9], false, ['0.4+2', '0.9+0!']],
    ['is no exception for the second', [0.4, 0.8, 1.3], true, ['0.4+2', '0.8+2', '1.3+0!']],
  ])('%s', (_, kilograms, isEmpty, expected) => {
    expect(climbed(kilograms, { isEmpty })).toEqual(expected)
  })
})

describe('the first step of a band', () => {
  it('is no such exception, however few newtons it takes', () => {
    const loads = [force(0.6, 'a'), force(0.9, 'a'), force(1.4, 'a')]
    const steps = climbLoads(loads[0] ?? force(0, 'a'), loads, protocol, Infinity)
    expect(steps.map(({ load, beyondPlaces, needsApproval }) => [load.newtons, beyondPlaces, needsApproval])).toEqual([
      [0.6, 2, false],
      [0.9, 2, false],
      [1.4, 0, true],
    ])
  })
})

describe('where a band ends', () => {
  it('the largest step of up to 10 % on another band is next', () => {
    const loads = [force(20, 'a'), force(20.5, 'b'), force(21, 'b'), force(21.5, 'b'), force(22, 'b'), force(22.5, 'b')]
    const steps = climbLoads(loads[0] ?? force(0, 'a'), loads, protocol, Infinity)
    expect(steps.map(({ load }) => `${load.newtons} ${load.band}`)).toEqual(['20 a', '22 b', '22.5 b'])
  })
})

describe('the ceiling', () => {
  it('is met and never passed', () => {
    expect([climbed([8, 8.8, 9.6], { ceiling: 8.8 }), climbed([8, 8.8, 9.6], { ceiling: 8.79 })]).toEqual([
      ['8+0', '8.8+0'],
      ['8+0'],
    ])
  })
})

describe('two bands', () => {
  it('are changed only where the first has no step left', () => {
    const loads = [force(10, 'a'), force(10.9, 'a'), force(11, 'b'), force(11.9, 'b'), force(13, 'b')]
    const steps = climbLoads(loads[0] ?? force(0, 'a'), loads, protocol, Infinity)
    expect(steps.map(({ load }) => `${load.newtons} ${load.band}`)).toEqual(['10 a', '10.9 a', '11.9 b', '13 b'])
  })
})
