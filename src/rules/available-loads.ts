// Decides: which external loads a client's own equipment can give.
// Source: plates are the best sums of those owned, harness and collars counted; a band's force is linear between the two
// stretches at which the therapist measured it, and never used outside them (force follows elongation almost linearly:
// Uchida 2016). Stretch is set in 1 cm steps (our choice). Reviewed 2026-11.
import type { Load } from '#src/domain/dose.ts'
import type { Band, Equipment } from '#src/domain/plan.ts'
import { epsilon } from '#src/domain/units.ts'

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
  const harnessGrams = gramsOf(equipment.harnessKg)
  const fewest = new Map<number, readonly number[]>([[harnessGrams, []]])
  for (const plate of equipment.platesKg) {
    for (const [grams, plates] of [...fewest]) {
      const collarGrams = plates.length === 0 ? gramsOf(equipment.collarsKg ?? 0) : 0
      const sum = grams + gramsOf(plate) + collarGrams
      const known = fewest.get(sum)
      if (!known || known.length > plates.length + 1) fewest.set(sum, [...plates, plate])
    }
  }
  return [...fewest]
    .sort(([a], [b]) => a - b)
    .map(([grams, plates]) => ({ kind: 'mass', kilograms: grams / gramsPerKilogram, plates: [...plates].sort((a, b) => b - a) }))
}

function gramsOf(kilograms: number): number {
  return Math.round(kilograms * gramsPerKilogram)
}

/** The most that the client's own equipment gives without passing `target`; null where its least is more. */
export function bestLoad(target: LoadTarget, equipment: Equipment): ForceLoad | MassLoad | null {
  return (bestOf[target.kind] as (target: LoadTarget, equipment: Equipment) => ForceLoad | MassLoad | undefined)(target, equipment) ?? null
}

export type LoadTarget = { readonly kind: 'force'; readonly newtons: number } | { readonly kind: 'mass'; readonly kilograms: number }

const bestOf: { [Kind in LoadTarget['kind']]: (target: Extract<LoadTarget, { kind: Kind }>, equipment: Equipment) => ForceLoad | MassLoad | undefined } = {
  force: ({ newtons }, { bands }) => bandLoads(bands).findLast((load) => load.newtons <= newtons + epsilon),
  mass: ({ kilograms }, equipment) => harnessLoads(equipment).findLast((load) => load.kilograms <= kilograms + epsilon),
}
