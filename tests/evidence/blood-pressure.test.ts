// Source: contraindications to resistance training: absolute above 180/110, relative above 160/100 mmHg, following Williams
// 2007, Circulation 116:572-584 [found] https://pmc.ncbi.nlm.nih.gov/articles/PMC10959113/table/t0001 . Sources differ, and
// the exact limit is not above it: it counts as above all the same [convention].
import { describe, expect, it } from 'vitest'
import type { Screening } from '#src/domain/plan.ts'
import { isLimited, refusals } from '#src/rules/eligibility.ts'
import { gates } from './shipped.ts'

function withPressure(systolic: number, diastolic: number): Screening {
  return {
    age: 40,
    bloodPressure: { systolic, diastolic },
    conditions: [],
    hasSurgeonClearance: false,
    hasGuardianConsent: false,
    overrideReason: null,
  }
}

describe('blood pressure', () => {
  it.each([
    [120, 80, 'open'],
    [159, 99, 'open'],
    [160, 99, 'limited'],
    [159, 100, 'limited'],
    [179, 109, 'limited'],
    [180, 109, 'refused'],
    [179, 110, 'refused'],
    [181, 111, 'refused'],
  ])('of %i/%i is %s', (systolic, diastolic, kind) => {
    const screening = withPressure(systolic, diastolic)
    const refused = refusals(screening, gates)
    expect(refused.length > 0 ? 'refused' : isLimited(screening, gates) ? 'limited' : 'open').toBe(kind)
    expect(refused).toEqual(kind === 'refused' ? [{ kind: 'blood-pressure', systolic, diastolic }] : [])
  })
})
