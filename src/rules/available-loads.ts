// Decides: which external loads a client's own equipment can give.
// Source: plates are the best sums of those owned, the harness counted; a band's force is linear between the two
// stretches at which the therapist measured it, and never used outside them (force follows elongation almost linearly:
// Uchida 2016). Stretch is set in 1 cm steps (our choice). Reviewed 2026-11.
import type { Load } from '#src/domain/dose.ts'
import type { Band, Equipment } from '#src/domain/plan.ts'

export type ForceLoad = Extract<Load, { kind: 'force' }>
export type MassLoad = Extract<Load, { kind: 'mass' }>

const stretchStepCm = 1
/** Sums are kept to the gram so that equal sums of different plates are one load. */
const gramsPerKilogram = 1000
/** Forces are kept to a tenth of a newton, finer than any spring balance a clinic has. */
const tenthsPerNewton = 10

/** Every force that the bands give in whole steps of stretch, easiest first. */
export function bandLoads(bands: readonly Band[]): readonly ForceLoad[] {
  return bands.flatMap(loadsOfBand).sort((a, b) => a.newtons - b.newtons)
}

function loadsOfBand(band: Band): ForceLoad[] {
  const [near, far] = band.points
  const slope = (far.forceN - near.forceN) / (far.stretchCm - near.stretchCm)
  const loads: ForceLoad[] = []
  for (let stretchCm = Math.ceil(near.stretchCm); stretchCm <= far.stretchCm; stretchCm += stretchStepCm) {
    const exact = near.forceN + slope * (stretchCm - near.stretchCm)
    loads.push({
      kind: 'force',
      newtons: Math.round(exact * tenthsPerNewton) / tenthsPerNewton,
      band: band.id,
      stretchCm,
    })
  }
  return loads
}

/** Every weight that harness and plates give, the empty harness first; for equal sums the fewest plates. */
export function harnessLoads(equipment: Equipment): readonly MassLoad[] {
  if (equipment.harnessKg === null) return []
  const harnessGrams = Math.round(equipment.harnessKg * gramsPerKilogram)
  const fewest = new Map<number, readonly number[]>([[harnessGrams, []]])
  for (const plate of equipment.platesKg) {
    for (const [grams, plates] of [...fewest]) {
      const sum = grams + Math.round(plate * gramsPerKilogram)
      const known = fewest.get(sum)
      if (!known || known.length > plates.length + 1) fewest.set(sum, [...plates, plate])
    }
  }
  return [...fewest]
    .sort(([a], [b]) => a - b)
    .map(([grams, plates]) => ({ kind: 'mass', kilograms: grams / gramsPerKilogram, plates: [...plates].sort((a, b) => b - a) }))
}
