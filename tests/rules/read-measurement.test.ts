// Means of healthy women: extension 190.8 N, flexion 73.8 N, rotation 8 Nm (Salo 2006 [figures found]); side bending 120 N,
// deep flexors 60 N and every limit of doubt are our choice. 1 kgf is 9.80665 N, 1 lbf 4.44822 N.
import { describe, expect, it } from 'vitest'
import type { LadderId } from '#src/domain/direction.ts'
import type { ForceUnit } from '#src/domain/units.ts'
import { readMeasurement, type TypedMeasurement } from '#src/rules/read-measurement.ts'

function typed(ladder: LadderId, trials: readonly number[], unit: ForceUnit = 'N', more: Partial<TypedMeasurement> = {}): TypedMeasurement {
  return { ladder, trials, unit, leverCm: null, isConfirmed: false, ...more }
}

/** `usable`, or the doubt with the unit that is suggested; `!` where it cannot be confirmed. */
function reading(measurement: TypedMeasurement): string {
  const result = readMeasurement(measurement)
  if (result.kind === 'usable') return 'usable'
  return `${result.reason}${result.suggestion ? ` ${result.suggestion.unit}` : ''}${result.mayBeConfirmed ? '' : '!'}`
}

describe('a typed maximum', () => {
  it('is the best of its trials, with their spread', () => {
    expect(readMeasurement(typed('extension', [10, 12, 11], 'kgf'))).toEqual({
      kind: 'usable',
      force: 12,
      newtons: expect.closeTo(117.6798, 9),
      spread: { share: expect.closeTo(1 / 6, 9), isTold: true },
    })
  })

  it('that is doubtful is asked again with what seems wrong', () => {
    expect(readMeasurement(typed('extension', [11, 12]))).toEqual({
      kind: 'ask-again',
      reason: 'unit-seems-wrong',
      value: 12,
      suggestion: { value: 12, unit: 'kgf' },
      mayBeConfirmed: true,
    })
  })

  it.each<readonly [string, TypedMeasurement, string]>([
    ['0', typed('extension', [0]), 'not-positive!'],
    ['below 0', typed('extension', [-5]), 'not-positive!'],
    ['one trial of 0', typed('extension', [120, 0]), 'not-positive!'],
    ['no number', typed('extension', [NaN]), 'not-positive!'],
    ['the norm', typed('extension', [190.8]), 'usable'],
    ['a strong neck', typed('extension', [733.9]), 'usable'],
    ['just below ten times the norm', typed('extension', [1907]), 'usable'],
    ['ten times the norm', typed('extension', [1908]), 'far-above!'],
    ['ten times the norm of flexion', typed('flexion', [738]), 'far-above!'],
    ['500 lbf, likely newtons', typed('extension', [500], 'lbf'), 'unit-seems-wrong N!'],
    ['120 kgf, likely newtons', typed('extension', [120], 'kgf'), 'unit-seems-wrong N'],
    ['26 N, likely kilograms', typed('extension', [26]), 'unit-seems-wrong kgf'],
    ['a fifth of the norm', typed('extension', [38.2]), 'usable'],
    ['just below a fifth, likely pounds', typed('extension', [38.1]), 'unit-seems-wrong lbf'],
    ['6 N, likely kilograms', typed('extension', [6]), 'unit-seems-wrong kgf'],
    ['5 N, which no unit explains', typed('extension', [5]), 'far-below'],
    ['a weak flexion', typed('flexion', [15]), 'usable'],
    ['side bending by our own norm', typed('lateral-flexion', [104]), 'usable'],
    ['side bending of exactly a fifth', typed('lateral-flexion', [24]), 'usable'],
    ['side bending just below a fifth, likely pounds', typed('lateral-flexion', [23.9]), 'unit-seems-wrong lbf'],
    ['360 kgf, of which newtons are likely up to three times the norm', typed('lateral-flexion', [360], 'kgf'), 'unit-seems-wrong N!'],
    ['361 kgf, which no unit explains', typed('lateral-flexion', [361], 'kgf'), 'far-above!'],
    ['side bending ten times it', typed('lateral-flexion', [1200]), 'far-above!'],
    ['deep flexors ten times ours', typed('deep-flexors', [600]), 'far-above!'],
    ['rotation of 8 Nm at 14 cm', typed('rotation', [57], 'N', { leverCm: 14 }), 'usable'],
    ['rotation of 80 Nm', typed('rotation', [572], 'N', { leverCm: 14 }), 'far-above!'],
    ['rotation at no known lever arm', typed('rotation', [572]), 'usable'],
    ['trials that differ twofold', typed('extension', [100, 200]), 'usable'],
    ['trials that differ more', typed('extension', [99, 200]), 'trials-apart'],
  ])('%s reads as expected', (_, measurement, expected) => {
    expect(reading(measurement)).toBe(expected)
  })

  it.each<readonly [string, TypedMeasurement, string]>([
    ['a weak neck is taken', typed('extension', [12]), 'usable'],
    ['a very weak one is taken', typed('extension', [5]), 'usable'],
    ['trials far apart are taken', typed('extension', [99, 200]), 'usable'],
    ['what may not be is not', typed('extension', [0]), 'not-positive!'],
    ['ten times the norm is not', typed('extension', [500], 'lbf'), 'unit-seems-wrong N!'],
  ])('once confirmed, %s', (_, measurement, expected) => {
    expect(reading({ ...measurement, isConfirmed: true })).toBe(expected)
  })
})
