// The best trial, the latest measurement and the weaker side: our choice; 10 % as well, no threshold for necks is published.
import { describe, expect, it } from 'vitest'
import type { Direction } from '#src/domain/direction.ts'
import type { Measurement } from '#src/domain/plan.ts'
import { sideDifference, trialSpread, usableMaximum } from '#src/rules/usable-maximum.ts'
import { assumed } from './load-facts.ts'

function measured(direction: Direction, force: number, leverCm: number | null = null, unit: Measurement['unit'] = 'N'): Measurement {
  return { direction, force, unit, leverCm, on: null }
}

describe('the maximum of a ladder', () => {
  it('is none without a measurement of it', () => {
    expect(usableMaximum([measured('flexion', 80)], 'extension', assumed)).toBeNull()
  })

  it.each<readonly [string, readonly Measurement[], number, number]>([
    ['is taken at the assumed lever arm where none was measured', [measured('rotation-left', 100)], 100, 16],
    ['is taken at the measured lever arm', [measured('rotation-left', 100, 18)], 100, 18],
    ['is in newtons whatever was typed', [measured('rotation-left', 10, null, 'kgf')], 98.0665, 15.69064],
    ['is the weaker of two sides', [measured('rotation-left', 100), measured('rotation-right', 90)], 90, 14.4],
    ['takes force and moment each from the side that is weaker in it', [measured('rotation-left', 100, 10), measured('rotation-right', 90, 12)], 90, 10],
    ['is that of the one side measured', [measured('rotation-right', 90)], 90, 14.4],
  ])('%s', (_, measurements, forceN, momentNm) => {
    expect(usableMaximum(measurements, 'rotation', assumed)).toMatchObject({ forceN: expect.closeTo(forceN, 9), momentNm: expect.closeTo(momentNm, 9) })
  })

  it.each([
    ['a better retest', [120, 150], 150, 120],
    ['a worse retest', [120, 90], 90, 90],
    ['a worse and then a better one', [120, 90, 130], 130, 90],
  ])('is after %s the latest, and remembers the lowest', (_, forces, latest, lowest) => {
    const maximum = usableMaximum(forces.map((force) => measured('extension', force, 10)), 'extension', assumed)
    expect(maximum).toEqual({ forceN: latest, momentNm: latest / 10, lowest: { forceN: lowest, momentNm: lowest / 10 } })
  })
})

describe('the spread of trials', () => {
  it('is none of a single one', () => {
    expect(trialSpread([112])).toBeNull()
  })

  it.each([
    [[100, 100], 0, false],
    [[90, 100, 95], 0.1, false],
    [[89.9, 100], 0.101, true],
    [[112, 100.8], 0.1, false],
  ])('of %j is %d of the best, told: %s', (trials, share, isTold) => {
    expect(trialSpread(trials)).toEqual({ share: expect.closeTo(share, 9), isTold })
  })
})

describe('the difference between sides', () => {
  it('is none until both are measured, and none where there are no sides', () => {
    expect([
      sideDifference([measured('rotation-left', 100)], 'rotation'),
      sideDifference([measured('extension', 100)], 'extension'),
    ]).toEqual([null, null])
  })

  it.each([
    ['10 % is not told', measured('rotation-left', 90), measured('rotation-right', 100), 0.1, false],
    ['above 10 % is', measured('rotation-left', 100), measured('rotation-right', 89), 0.11, true],
    ['at two known lever arms is that of the moments', measured('rotation-left', 100, 16), measured('rotation-right', 80, 20), 0, false],
    ['with the right lever arm unknown is that of the forces', measured('rotation-left', 100, 16), measured('rotation-right', 80), 0.2, true],
    ['with the left one unknown is that of the forces', measured('rotation-left', 80), measured('rotation-right', 100, 16), 0.2, true],
  ])('%s', (_, left, right, share, isTold) => {
    expect(sideDifference([left, right], 'rotation')).toEqual({ share: expect.closeTo(share, 9), isTold })
  })

  it('is that of the latest measurements', () => {
    const measurements = [measured('rotation-left', 50), measured('rotation-right', 100), measured('rotation-left', 100)]
    expect(sideDifference(measurements, 'rotation')).toEqual({ share: 0, isTold: false })
  })
})
