import { describe, expect, it } from 'vitest'
import { mayTestMaximum } from '#src/rules/maximal-test.ts'
import { novice } from '#tests/support/sample-chain.ts'

const protocol = novice()

// Common practice, no source: maximal tests are the therapist's, and never done with pain above comfortable.
describe('a maximal test', () => {
  it.each([
    ['with no pain told yet', null, 0, { kind: 'allowed' }],
    ['at the last comfortable pain', 2, 0, { kind: 'allowed' }],
    ['one above comfortable', 3, 0, { kind: 'pain', pain: 3, limit: 2 }],
    ['at the usual pain', 4, 4, { kind: 'allowed' }],
    ['one above the usual pain', 5, 4, { kind: 'pain', pain: 5, limit: 4 }],
    ['at red pain, however high the usual', 6, 6, { kind: 'pain', pain: 6, limit: 5 }],
  ] as const)('%s', (_title, lastPain, usualPain, verdict) => {
    expect(mayTestMaximum({ isLocked: false, lastPain, usualPain, protocol })).toEqual(verdict)
  })

  it('is not entered while locked, whatever the pain', () => {
    expect(mayTestMaximum({ isLocked: true, lastPain: 0, usualPain: 0, protocol })).toEqual({ kind: 'locked' })
  })
})
