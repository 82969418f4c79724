// Head share of women and men: de Leva 1996 [found]; everything else is our choice.
import { describe, expect, it } from 'vitest'
import { assumptionsSchema, ownAssumptionsSchema } from '#src/content/assumptions-schema.ts'
import type { OwnAssumptions } from '#src/domain/assumptions.ts'
import { assumptionsFor, stateAssumptions } from '#src/rules/assumptions-for.ts'
import { assumed, shippedAssumptions } from './load-facts.ts'

describe('the assumptions in force', () => {
  it('are the shipped ones where the plan states none', () => {
    const expected = { bodyKg: 70, headShare: 0.0694, headLeverCm: 12, testerLeverCm: 16, bandLeverCm: 16, harnessLeverCm: 16 }
    expect(assumed).toEqual(expected)
  })

  it.each<readonly [string, OwnAssumptions, object]>([
    ['take the share of the sex that the plan names', { sex: 'female' }, { headShare: 0.0668 }],
    ['take the share of the other sex', { sex: 'male' }, { headShare: 0.0694 }],
    ['put the plan’s own share before that of the sex', { sex: 'female', headShare: 0.08 }, { headShare: 0.08 }],
    ['take a body and a lever from the plan', { bodyKg: 58, harnessLeverCm: 18 }, { bodyKg: 58, harnessLeverCm: 18 }],
  ])('%s', (_, own, expected) => {
    expect(assumptionsFor(own, shippedAssumptions)).toEqual({ ...assumed, ...expected })
  })

  it('are each stated with their source', () => {
    const stated = stateAssumptions({ bodyKg: 58, sex: 'female' }, shippedAssumptions)
    expect(stated.slice(0, 2)).toEqual([
      { id: 'bodyKg', value: 58, source: 'set by the therapist in the plan', isTherapists: true },
      { id: 'headShare', value: 0.0668, source: 'de Leva 1996, J Biomech 29:1223-1230 [found]', isTherapists: false },
    ])
    expect(stated.map(({ id }) => id)).toEqual(Object.keys(assumed))
  })
})

describe('the bounds', () => {
  it.each([
    ['body_kg', 25, 250],
    ['head_share', 0.05, 0.1],
    ['head_lever_cm', 6, 20],
    ['tester_lever_cm', 8, 30],
    ['band_lever_cm', 8, 30],
    ['harness_lever_cm', 8, 30],
  ])('of %s are %d and %d', (key, least, most) => {
    const isRead = (value: number): boolean => ownAssumptionsSchema.safeParse({ [key]: value }).success
    expect([least, least - 0.01, most, most + 0.01].map(isRead)).toEqual([true, false, true, false])
  })

  it('let no unknown assumption in', () => {
    expect(ownAssumptionsSchema.safeParse({ head_kg: 5 }).success).toBe(false)
  })

  it('ask for a source in the shipped file', () => {
    const file = (bodyKg: object): object => ({
      body_kg: bodyKg,
      head_share: { female: { value: 0.06, source: 'one' }, male: { value: 0.06, source: 'one' }, unknown: { value: 0.06, source: 'one' } },
      ...Object.fromEntries(['head', 'tester', 'band', 'harness'].map((what) => [`${what}_lever_cm`, { value: 12, source: 'one' }])),
    })
    const readings = [{ value: 70, source: 'our choice' }, { value: 70 }].map((body) => assumptionsSchema.safeParse(file(body)).success)
    expect(readings).toEqual([true, false])
  })
})
