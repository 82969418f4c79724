// Sources: head mass, de Leva 1996, J Biomech 29:1223-1230 [found], Dempster/Winter 8.1 % [found]. Gravity moment
// M = m g L sin(tilt) and its worked values [calc]; L = 0.12 m is a round figure and only carries the arithmetic here.
// Force, mass and moment: exact factors, worked values [calc]. Repetition-maximum formulas: Epley 1985, Brzycki 1993, Lander
// 1985, Lombardi 1989, O'Conner 1989, Wathan 1994, Mayhew 1992 [found-2nd]; their table [calc]; no estimate above ten
// repetitions [convention]. Strength before and after: Geary 2014, Clin J Sport Med 24(6):502-508 [found], per cent [calc].
// Means, deviations and reliability: Salo 2006, JOSPT 36:495-502 [figures found, citation memory:high]; formulas of the error:
// Jacobson and Truax 1991 [found]. Tests every four weeks: Taylor 2006 [found]. Sides: formula and 8.1 against 7.9 Nm [calc].
import fc from 'fast-check'
import Qty from 'js-quantities'
import { medianSorted } from 'simple-statistics'
import { describe, expect, it } from 'vitest'
import type { Equipment } from '#src/domain/plan.ts'
import { forceUnits, kilogramsPerPound, newtonsPerPoundForce, standardGravity, toNewtons, weightOf } from '#src/domain/units.ts'
import { bandLoads, bestLoad, harnessLoads } from '#src/rules/available-loads.ts'
import { estimateMaximum, repetitionFormulas } from '#src/rules/estimate-maximum.ts'
import { forceFor, gravityMoment, momentOf } from '#src/rules/gravity-moment.ts'
import { detectableChange, standardErrorOf } from '#src/rules/reliable-change.ts'
import { strengthGain } from '#src/rules/strength-gain.ts'
import { sideDifference } from '#src/rules/usable-maximum.ts'
import { shippedAssumptions } from '../rules/load-facts.ts'
import { novice } from './shipped.ts'

const seed = 20261125

describe('units', () => {
  /** The library knows the pound-force to seven digits, and no kilogram-force. */
  const asReference: Record<(typeof forceUnits)[number], (value: number) => number> = {
    N: (value) => Qty(value, 'N').to('N').scalar,
    kgf: (value) => Qty(value * standardGravity, 'kg*m/s^2').to('N').scalar,
    lbf: (value) => Qty(value, 'lbf').to('N').scalar,
  }

  it('of force are those of a reference library', () => {
    fc.assert(
      fc.property(fc.double({ min: 0.001, max: 5000, noNaN: true }), fc.constantFrom(...forceUnits), (value, unit) => {
        expect(toNewtons(value, unit) / asReference[unit](value)).toBeCloseTo(1, 6)
      }),
      { seed, numRuns: 3000 },
    )
  })

  it('of mass are those of a reference library', () => {
    fc.assert(
      fc.property(fc.double({ min: 0.001, max: 500, noNaN: true }), (kilograms) => {
        expect(kilograms / kilogramsPerPound / Qty(kilograms, 'kg').to('lbs').scalar).toBeCloseTo(1, 6)
      }),
      { seed, numRuns: 2000 },
    )
  })

  it.each([
    [50, 5.099, 11.24],
    [73.8, 7.526, null],
    [190.8, 19.456, null],
    [73.55, 7.5, 16.535],
  ])('%d N are %d kg hung and %s lbf [calc]', (newtons, kilograms, poundForce) => {
    expect(newtons / standardGravity).toBeCloseTo(kilograms, 3)
    expect(poundForce === null || Math.abs(newtons / newtonsPerPoundForce - poundForce) < 6e-4).toBe(true)
  })
})

describe('moments', () => {
  it.each([
    [80, 0.0694, 5.552, 54.45, [1.69, 3.27, 4.62, 5.66, 6.53]],
    [62, 0.0668, 4.142, 40.62, [1.26, 2.44, 3.45, 4.22, 4.87]],
    [80, 0.081, 6.48, 63.55, [1.97, 3.81, 5.39, 6.6, 7.63]],
  ])('of the head of %d kg at a share of %d are those of the table [calc]', (body, share, mass, weight, moments) => {
    const kilograms = body * share
    const worked = [15, 30, 45, 60, 90].map((tilt) => gravityMoment(kilograms, 12, tilt))
    expect([kilograms, weightOf(kilograms), ...worked]).toEqual([expect.closeTo(mass, 3), expect.closeTo(weight, 1), ...moments.map((one) => expect.closeTo(one, 2))])
  })

  it('at 30 degrees are half of those at 90, and double with the lever arm', () => {
    const anyHead = fc.record({ kilograms: fc.double({ min: 1, max: 12, noNaN: true }), lever: fc.double({ min: 5, max: 25, noNaN: true }), tilt: fc.double({ min: 0, max: 90, noNaN: true }) })
    fc.assert(
      fc.property(anyHead, ({ kilograms, lever, tilt }) => {
        expect(gravityMoment(kilograms, lever, 30)).toBeCloseTo(gravityMoment(kilograms, lever, 90) / 2, 9)
        expect(gravityMoment(kilograms, lever * 2, tilt)).toBeCloseTo(gravityMoment(kilograms, lever, tilt) * 2, 9)
      }),
      { seed, numRuns: 1000 },
    )
  })

  it.each([
    [120, 18, 21.6],
    [85, 16, 13.6],
  ])('%d N at %d cm turn with %d Nm, and back [calc]', (newtons, leverCm, newtonMetres) => {
    expect([momentOf(newtons, leverCm), forceFor(newtonMetres, leverCm)]).toEqual([expect.closeTo(newtonMetres, 9), expect.closeTo(newtons, 9)])
  })

  it('rest on de Leva’s share of the head', () => {
    const { female, male } = shippedAssumptions.headShare
    expect([female.value, male.value]).toEqual([0.0668, 0.0694])
  })
})

describe('repetition-maximum formulas', () => {
  const names = ['epley', 'brzycki', 'lander', 'lombardi', 'oConner', 'wathan', 'mayhew'] as const

  it.each([
    [20, 1, [20.67, 20.0, 20.28, 20.0, 20.5, 20.26, 21.77]],
    [20, 5, [23.33, 22.5, 22.74, 23.49, 22.5, 23.32, 23.8]],
    [7.5, 8, [9.5, 9.31, 9.38, 9.23, 9.0, 9.58, 9.47]],
    [20, 10, [26.67, 26.67, 26.81, 25.18, 25.0, 26.95, 26.19]],
    [12, 12, [16.8, 17.28, 17.33, 15.39, 15.6, 16.98, 16.25]],
    [20, 15, [30.0, 32.73, 32.66, 26.22, 27.5, 30.18, 28.34]],
  ])('give the table for %d kg lifted %d times [calc]', (load, reps, expected) => {
    const worked = names.map((name) => repetitionFormulas[name](load, reps))
    expect(worked.map((value) => Math.round(value * 100) / 100)).toEqual(expected)
  })

  it('cross where they should: Epley and Brzycki at ten, Brzycki and O’Conner at five', () => {
    const { epley, brzycki, oConner } = repetitionFormulas
    expect([epley(20, 10) - brzycki(20, 10), brzycki(20, 5) - oConner(20, 5)]).toEqual([expect.closeTo(0, 9), expect.closeTo(0, 9)])
  })

  it('give a single lift back only by Brzycki and Lombardi', () => {
    expect(names.filter((name) => Math.abs(repetitionFormulas[name](20, 1) - 20) < 1e-9)).toEqual(['brzycki', 'lombardi'])
  })

  it('are used at their median, up to ten repetitions and no further', () => {
    fc.assert(
      fc.property(fc.double({ min: 0.1, max: 100, noNaN: true }), fc.integer({ min: 1, max: 20 }), (load, reps) => {
        const estimate = estimateMaximum({ load, reps, reserve: 0 })
        const values = names.map((name) => repetitionFormulas[name](load, reps)).toSorted((a, b) => a - b)
        expect(estimate.kind === 'estimated' ? estimate.value : null).toBe(reps <= 10 ? medianSorted(values) : null)
      }),
      { seed, numRuns: 2000 },
    )
  })
})

describe('what the client owns', () => {
  const anyEquipment = fc.record({
    platesKg: fc.array(fc.constantFrom(0.1, 0.25, 0.5, 1, 1.25, 2.5), { maxLength: 7 }),
    harnessKg: fc.integer({ min: 1, max: 20 }).map((tenths) => tenths / 10),
    collarsKg: fc.integer({ min: 1, max: 5 }).map((tenths) => tenths / 10),
  })

  it('gives the best sum not above a target: none owned lies between', () => {
    fc.assert(
      fc.property(anyEquipment, fc.double({ min: 0.05, max: 12, noNaN: true }), (own, kilograms) => {
        const equipment: Equipment = { ...own, bands: [], hasSupport: true, stepCm: null }
        const best = bestLoad({ kind: 'mass', kilograms }, equipment)
        const below = harnessLoads(equipment).map((load) => load.kilograms).filter((sum) => sum <= kilograms)
        expect(best?.kind === 'mass' ? best.kilograms : null).toBe(below.length === 0 ? null : Math.max(...below))
      }),
      { seed, numRuns: 1000 },
    )
  })

  it('weighs what harness, collars and plates weigh together', () => {
    fc.assert(
      fc.property(anyEquipment, (own) => {
        const loads = harnessLoads({ ...own, bands: [], hasSupport: true, stepCm: null })
        const sums = loads.map(({ plates }) => plates.reduce((sum, plate) => sum + plate, own.harnessKg + (plates.length > 0 ? own.collarsKg : 0)))
        expect(loads.map(({ kilograms }) => kilograms)).toEqual(sums.map((sum) => expect.closeTo(sum, 9)))
      }),
      { seed, numRuns: 500 },
    )
  })

  it('stretches a band in a straight line between its two measured points', () => {
    const loads = bandLoads([{ id: 'own', points: [{ stretchCm: 10, forceN: 14 }, { stretchCm: 60, forceN: 42 }] }])
    expect(loads.filter(({ stretchCm }) => stretchCm % 25 === 10).map(({ newtons }) => newtons)).toEqual([14, 28, 42])
  })
})

describe('a retest', () => {
  it.each([
    ['flexion', 334.45, 396.05, 18.4],
    ['extension', 606.19, 733.88, 21.1],
    ['lateral-flexion', 555.56, 657.14, 18.3],
    ['lateral-flexion', 570.0, 668.0, 17.2],
  ] as const)('of %s from %d to %d N is a gain of %d %% (Geary 2014)', (ladder, before, after, percent) => {
    const strength = (forceN: number): { forceN: number; momentNm: number } => ({ forceN, momentNm: momentOf(forceN, 16) })
    expect(strengthGain(ladder, strength(before), strength(after)).percent).toBeCloseTo(percent, 1)
  })

  it.each([
    ['extension', 31.3, 'forceN'],
    ['flexion', 20.0, 'forceN'],
    ['rotation', 2.3, 'momentNm'],
  ] as const)('of %s is weighed against the error of Salo 2006 at its lower reliability', (ladder, standardDeviation, quantity) => {
    const gain = strengthGain(ladder, { forceN: 100, momentNm: 8 }, { forceN: 110, momentNm: 9 })
    const standardError = standardErrorOf(standardDeviation, 0.87)
    expect([gain.quantity, gain.error]).toEqual([quantity, { standardError, detectable95: detectableChange(standardError, 95), isWithin: true }])
  })

  it('falls due every four weeks (Taylor 2006)', () => {
    expect(novice.retest.everyDays).toBe(28)
  })

  it('of two sides at 8.1 and 7.9 Nm shows a difference of 2.5 % [calc]', () => {
    const side = (direction: 'rotation-left' | 'rotation-right', newtonMetres: number) => ({ direction, force: forceFor(newtonMetres, 10), unit: 'N', leverCm: 10, on: null }) as const
    const difference = sideDifference([side('rotation-right', 8.1), side('rotation-left', 7.9)], 'rotation')
    expect(difference).toEqual({ share: expect.closeTo(0.0247, 4), isTold: false })
  })
})
