// Sources: standard gravity, CGPM 1901 and ISO 80000-3 [exact]; the pound, international agreement of 1959, and the
// pound-force that follows from both [exact]. Worked values [calc].
import { describe, expect, it } from 'vitest'
import { forceUnits, kilogramsPerPound, newtonsPerPoundForce, standardGravity, toNewtons, weightOf } from '#src/domain/units.ts'

/** A product of two decimal fractions, worked out in whole numbers so that nothing is rounded. */
function exactProduct(a: string, b: string): string {
  const decimals = (text: string): number => text.split('.')[1]?.length ?? 0
  const whole = (text: string): bigint => BigInt(text.replace('.', ''))
  const digits = (whole(a) * whole(b)).toString().padStart(decimals(a) + decimals(b) + 1, '0')
  const point = digits.length - decimals(a) - decimals(b)
  return `${digits.slice(0, point)}.${digits.slice(point)}`
}

describe('the constants', () => {
  it('are the defined ones', () => {
    expect({ standardGravity, kilogramsPerPound, newtonsPerPoundForce }).toEqual({
      standardGravity: 9.80665,
      kilogramsPerPound: 0.45359237,
      newtonsPerPoundForce: 4.4482216152605,
    })
  })

  it('agree with one another to the last digit: a pound-force is the weight of a pound', () => {
    expect(exactProduct('0.45359237', '9.80665')).toBe('4.4482216152605')
    expect(exactProduct(String(kilogramsPerPound), String(standardGravity))).toBe(String(newtonsPerPoundForce))
  })
})

describe('worked values [calc]', () => {
  it.each([
    [5.099, 'kgf', 50],
    [11.24, 'lbf', 50],
    [7.526, 'kgf', 73.8],
    [19.456, 'kgf', 190.8],
    [190.8, 'N', 190.8],
  ] as const)('%d %s is %d N', (value, unit, newtons) => {
    expect(toNewtons(value, unit)).toBeCloseTo(newtons, 1)
  })

  it.each([
    [5.552, 54.45],
    [4.142, 40.62],
    [7.5, 73.55],
  ])('a mass of %d kg weighs %d N', (kilograms, newtons) => {
    expect(weightOf(kilograms)).toBeCloseTo(newtons, 2)
  })

  it('7.5 kg is 16.535 lb', () => {
    expect(7.5 / kilogramsPerPound).toBeCloseTo(16.535, 3)
  })

  it('a unit of force is known in newtons, each by its own factor', () => {
    expect(forceUnits.map((unit) => toNewtons(1, unit))).toEqual([1, 9.80665, 4.4482216152605])
  })
})
