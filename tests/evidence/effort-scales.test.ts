// Sources as in published/effort-scales.ts: Zourdos 2016; Borg CR10; Buckley and Borg 2011.
import { describe, expect, it } from 'vitest'
import { content, novice } from '#tests/support/sample-chain.ts'
import { borgCr10, cr10OfStrengthWork, hardestEffortLeaving, reserveAtEffort } from './published/effort-scales.ts'

describe('effort and reserve (Zourdos 2016)', () => {
  it('are each other’s complement to ten at the whole points from 7 on', () => {
    const whole = reserveAtEffort.filter(({ effort }) => effort >= 7 && Number.isInteger(effort))
    const complements = [10, 9, 8, 7].map((effort) => ({ effort, fewest: 10 - effort, most: 10 - effort }))
    expect(whole).toEqual(complements)
  })

  it('leave no gap: with more effort never more is left', () => {
    expect(reserveAtEffort.map(({ fewest }) => fewest)).toEqual(reserveAtEffort.map(({ fewest }) => fewest).toSorted((a, b) => a - b))
  })

  it('put our limit for progress at an effort of 8 of 10, and a first loaded set without a measured maximum at 6', () => {
    const { forProgress, onEntryUnmeasured } = novice().reserve
    expect([forProgress, onEntryUnmeasured].map(hardestEffortLeaving)).toEqual([8, 6])
  })
})

describe('a push on the client’s own hand, 0 to 10', () => {
  const pushes = [...content.exercises.values()].flatMap(({ ladder, work }) =>
    work.kind === 'holds' ? [...work.below, work.entry, ...work.above].flatMap(({ push }) => (push === null ? [] : [{ ladder, push }])) : [])
  const anchorsOf = (isDeep: boolean): readonly (string | undefined)[] => {
    const efforts = pushes.filter(({ ladder }) => (ladder === 'deep-flexors') === isDeep).map(({ push }) => push)
    return [...new Set(efforts)].toSorted((a, b) => a - b).map((effort) => borgCr10[effort])
  }

  it('is a whole anchor of the scale (Borg CR10): moderate or strong, and for the deep flexors weak or moderate', () => {
    expect([anchorsOf(false), anchorsOf(true)]).toEqual([['moderate', 'strong'], ['weak', 'moderate']])
  })

  it('lies, but for the deep flexors, where the scale goes with strength work of 40 to 70 % (Buckley and Borg 2011)', () => {
    const { from, to } = cr10OfStrengthWork
    expect(pushes.filter(({ ladder, push }) => ladder !== 'deep-flexors' && (push < from || push > to))).toEqual([])
  })
})
