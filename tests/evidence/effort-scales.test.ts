// Sources as in published/effort-scales.ts: Zourdos 2016; Borg CR10; Buckley and Borg 2011.
import { describe, expect, it } from 'vitest'
import { content, novice } from '#tests/support/sample-chain.ts'
import { borgCr10, cr10OfStrengthWork, hardestEffortLeaving, reserveAtEffort } from './published/effort-scales.ts'

describe('effort and reserve (Zourdos 2016)', () => {
  it('are each other’s complement to ten at the whole points from 7 on', () => {
    const whole = reserveAtEffort.filter(({ effort }) => effort >= 7 && Number.isInteger(effort))
    expect(whole.map(({ effort, fewest, most }) => [effort, fewest, most])).toEqual([10, 9, 8, 7].map((effort) => [effort, 10 - effort, 10 - effort]))
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
  const efforts = [...content.exercises.values()].flatMap(({ work }) =>
    work.kind === 'holds' ? [...work.below, work.entry, ...work.above].flatMap((step) => step.push ?? []) : [])

  it('is a whole anchor of the scale (Borg CR10), moderate or strong and never more', () => {
    expect([...new Set(efforts)].toSorted((a, b) => a - b).map((effort) => borgCr10[effort])).toEqual(['moderate', 'strong'])
  })

  it('lies where the scale goes with strength work of 40 to 70 % (Buckley and Borg 2011)', () => {
    expect(efforts.filter((effort) => effort < cr10OfStrengthWork.from || effort > cr10OfStrengthWork.to)).toEqual([])
  })
})
