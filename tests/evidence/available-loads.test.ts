// Sources: elastic resistance is close to linear with elongation: Uchida 2016, J Phys Ther Sci 28:1266-1271 [found]
// https://www.biocloudy.com/literatureDetail/MjQ5OTI5NA== . Neighbouring bands may not differ and stated values can be too
// high (same), hence two forces measured by the therapist and nothing outside them. Plate sums are arithmetic [calc].
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { Band, Equipment } from '#src/domain/plan.ts'
import { bandLoads, harnessLoads } from '#src/rules/available-loads.ts'

/** An invented band: 10 N at 20 cm, 25 N at 50 cm, so half a newton a centimetre. */
const band: Band = { id: 'short', points: [{ stretchCm: 20, forceN: 10 }, { stretchCm: 50, forceN: 25 }] }

const anyBand = fc
  .record({
    near: fc.integer({ min: 5, max: 60 }),
    length: fc.integer({ min: 5, max: 80 }),
    force: fc.integer({ min: 5, max: 400 }),
    rise: fc.integer({ min: 5, max: 800 }),
  })
  .map(({ near, length, force, rise }): Band => ({
    id: 'any',
    points: [{ stretchCm: near, forceN: force / 10 }, { stretchCm: near + length, forceN: (force + rise) / 10 }],
  }))

function equipment(platesKg: readonly number[], harnessKg: number | null): Equipment {
  return { platesKg, harnessKg, bands: [], hasSupport: true, stepCm: null }
}

describe('a band', () => {
  it.each([
    [20, 10],
    [30, 15],
    [35, 17.5],
    [40, 20],
    [50, 25],
  ])('stretched by %i cm pulls %d N, on the straight line between two measured points', (stretchCm, newtons) => {
    const load = bandLoads([band]).find((one) => one.stretchCm === stretchCm)
    expect(load).toEqual({ kind: 'force', band: 'short', stretchCm, newtons })
  })

  it('is used at every whole centimetre between the measured points and nowhere else', () => {
    const stretches = bandLoads([band]).map((load) => load.stretchCm)
    expect(stretches).toEqual(Array.from({ length: 31 }, (_, index) => 20 + index))
  })

  it('never strays from the line by more than the rounding, and never falls', () => {
    fc.assert(
      fc.property(anyBand, (own) => {
        const [near, far] = own.points
        const loads = bandLoads([own])
        const share = (stretchCm: number): number => (stretchCm - near.stretchCm) / (far.stretchCm - near.stretchCm)
        const line = (stretchCm: number): number => near.forceN * (1 - share(stretchCm)) + far.forceN * share(stretchCm)
        const strays = loads.map((load) => Math.abs(load.newtons - line(load.stretchCm)))
        expect(loads).toHaveLength(far.stretchCm - near.stretchCm + 1)
        expect(Math.max(...strays)).toBeLessThanOrEqual(0.05 + 1e-9)
        expect(loads.map((load) => load.newtons)).toEqual(loads.map((load) => load.newtons).toSorted((a, b) => a - b))
      }),
    )
  })

  it('of several stands in one order of force', () => {
    const strong: Band = { id: 'long', points: [{ stretchCm: 10, forceN: 12 }, { stretchCm: 14, forceN: 20 }] }
    const forces = bandLoads([strong, band]).map((load) => load.newtons)
    expect(forces).toHaveLength(36)
    expect(forces).toEqual(forces.toSorted((a, b) => a - b))
  })
})

describe('a harness', () => {
  it('gives every sum of its own weight and the plates, each once', () => {
    expect(harnessLoads(equipment([0.25, 0.5, 0.5, 1], 0.3))).toEqual([
      { kind: 'mass', kilograms: 0.3, plates: [] },
      { kind: 'mass', kilograms: 0.55, plates: [0.25] },
      { kind: 'mass', kilograms: 0.8, plates: [0.5] },
      { kind: 'mass', kilograms: 1.05, plates: [0.5, 0.25] },
      { kind: 'mass', kilograms: 1.3, plates: [1] },
      { kind: 'mass', kilograms: 1.55, plates: [1, 0.25] },
      { kind: 'mass', kilograms: 1.8, plates: [1, 0.5] },
      { kind: 'mass', kilograms: 2.05, plates: [1, 0.5, 0.25] },
      { kind: 'mass', kilograms: 2.3, plates: [1, 0.5, 0.5] },
      { kind: 'mass', kilograms: 2.55, plates: [1, 0.5, 0.5, 0.25] },
    ])
  })

  it('gives exactly the sums that trying every choice of plates gives, with plates that are owned', () => {
    const anyPlates = fc.array(fc.constantFrom(0.25, 0.5, 0.75, 1, 1.25, 2, 2.5), { maxLength: 7 })
    fc.assert(
      fc.property(anyPlates, fc.integer({ min: 50, max: 2000 }), (plates, harnessGrams) => {
        const chosen = (mask: number): readonly number[] => plates.filter((_, index) => (mask >> index) % 2 === 1)
        const choices = Array.from({ length: 2 ** plates.length }, (_, mask) => chosen(mask))
        const gramsOf = (choice: readonly number[]): number => choice.reduce((sum, plate) => sum + plate * 1000, harnessGrams)
        const fewest = new Map<number, number>()
        for (const choice of choices) fewest.set(gramsOf(choice), Math.min(choice.length, fewest.get(gramsOf(choice)) ?? Infinity))

        const loads = harnessLoads(equipment(plates, harnessGrams / 1000))

        expect(loads.map((load) => [load.kilograms, load.plates.length])).toEqual(
          [...fewest].sort(([a], [b]) => a - b).map(([grams, count]) => [grams / 1000, count]),
        )
        expect(loads.map((load) => gramsOf(load.plates) / 1000)).toEqual(loads.map((load) => load.kilograms))
        expect(loads.flatMap(({ plates: used }) => used.filter((plate) => count(used, plate) > count(plates, plate)))).toEqual([])
      }),
    )
  })

  it('gives nothing where none is owned', () => {
    expect(harnessLoads(equipment([1], null))).toEqual([])
  })
})

function count(plates: readonly number[], wanted: number): number {
  return plates.filter((plate) => plate === wanted).length
}
