import { describe, expect, it } from 'vitest'
import { decisions, ruleIds } from '#src/domain/decision.ts'
import { explainDecision, type Basis } from '#src/rules/explain-decision.ts'
import { ruleThresholds, structuralRules } from '#src/rules/rule-thresholds.ts'
import { keysOf } from '#src/content/threshold-orders.ts'
import { leavesInFile, protocolIds, shippedProtocol, sourcesOf } from '#tests/support/shipped-protocols.ts'

function basisOf(id: string, overrides: Basis['overrides'] = undefined): Basis {
  return { protocol: shippedProtocol(id), sources: sourcesOf(id), overrides }
}

describe('a decision explained', () => {
  it('gives each reason its numbers with their sources, and the move that followed', () => {
    const amber = { rule: 'amber', numbers: { set: 2, side: 'none', pain: 3, limit: 2 } } as const
    const lost = { rule: 'control-lost', numbers: { set: 3, side: 'none' } } as const
    expect(explainDecision({ kind: 'ease', reasons: [lost, amber] }, basisOf('novice'))).toEqual({
      kind: 'ease',
      reasons: [
        { reason: lost, thresholds: [] },
        {
          reason: amber,
          thresholds: [
            { path: 'pain.comfortableUpTo', value: 2, isSetByTherapist: false, protocolValue: 2, source: 'Thomeé 1997, from memory: 0-2 safe; tested in knee-cap pain, not in necks' },
            { path: 'pain.amberUpTo', value: 5, isSetByTherapist: false, protocolValue: 5, source: 'Thomeé 1997 and Silbernagel 2007, from memory: acceptable up to 5; not tested in necks' },
          ],
        },
      ],
      move: [{ path: 'ease.atLeast', value: 0.1, isSetByTherapist: false, protocolValue: 0.1, source: 'our choice' }],
    })
  })

  it('says where the therapist has set the number, and what it would be otherwise', () => {
    const basis = basisOf('novice', { reserve: { forProgress: 3 } })
    const [low] = explainDecision({ kind: 'maintain', reasons: [{ rule: 'reserve-low', numbers: {} }] }, basis).reasons
    expect(low?.thresholds).toEqual([
      { path: 'reserve.forProgress', value: 3, isSetByTherapist: true, protocolValue: 2, source: sourcesOf('novice').get('reserve.forProgress') },
    ])
  })

  it('leaves a number beside the one that the therapist set as it was', () => {
    const basis = basisOf('novice', { pain: { amberUpTo: 4 } })
    const [amber] = explainDecision({ kind: 'maintain', reasons: [{ rule: 'amber', numbers: {} }] }, basis).reasons
    expect(amber?.thresholds.map(({ path, value, isSetByTherapist }) => [path, value, isSetByTherapist])).toEqual([
      ['pain.comfortableUpTo', 2, false],
      ['pain.amberUpTo', 4, true],
    ])
  })

  it('without a source for one of its numbers is a mistake of ours', () => {
    const basis = { ...basisOf('novice'), sources: new Map() }
    expect(() => explainDecision({ kind: 'ease', reasons: [] }, basis)).toThrow(new RangeError('no source for ease.atLeast'))
  })

  it.each(protocolIds)('rests on values and sources that stand in the file of %s, whatever the rule and the move', (id) => {
    const leaves = leavesInFile(id)
    const reasons = ruleIds.map((rule) => ({ rule, numbers: {} }))
    const explained = decisions.map((kind) => explainDecision({ kind, reasons }, basisOf(id)))
    const resting = explained.flatMap(({ reasons: own, move }) => [...own.flatMap(({ thresholds }) => thresholds), ...move])
    expect(resting.length).toBeGreaterThan(100)
    for (const { path, value, source } of resting) expect({ value, source }).toEqual(leaves.get(keysOf(path).join('.')))
  })
})

describe('a rule', () => {
  it('rests on a number or is one of these', () => {
    expect(structuralRules).toEqual([
      'top-of-ladder', 'rung-not-shown', 'shaky', 'set-left-out', 'answer-missing', 'morning-missing', 'ended-early', 'control-lost',
      'not-finished', 'direction-stopped', 'rung-below-closed', 'red-flag', 'placed-by-therapist', 'steps-renewed',
    ].toSorted((a, b) => ruleIds.findIndex((rule) => rule === a) - ruleIds.findIndex((rule) => rule === b)))
  })

  it('names a number once', () => {
    const twice = Object.entries(ruleThresholds).filter(([, paths]) => new Set(paths).size !== paths.length)
    expect(twice).toEqual([])
  })
})
