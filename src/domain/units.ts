/** Standard gravity, m/s², exact by definition (ISO 80000-3, CGPM 1901). */
export const standardGravity = 9.80665
/** One pound in kilograms and one pound-force in newtons, both exact. */
export const kilogramsPerPound = 0.45359237
export const newtonsPerPoundForce = 4.4482216152605

/** Guards a limit that was worked out against the last bit of a binary fraction: a step from 8 to 8.8 is one of 10 %. */
export const epsilon = 1e-9

export const forceUnits = ['N', 'kgf', 'lbf'] as const
export type ForceUnit = (typeof forceUnits)[number]

const newtonsPerUnit: Record<ForceUnit, number> = {
  N: 1,
  kgf: standardGravity,
  lbf: newtonsPerPoundForce,
}

export function toNewtons(value: number, unit: ForceUnit): number {
  return value * newtonsPerUnit[unit]
}

/** The weight of a mass in newtons. */
export function weightOf(kilograms: number): number {
  return kilograms * standardGravity
}
