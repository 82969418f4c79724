import { describe, expect, it } from 'vitest'
import { sourceKindOf, type SourceKind } from '#src/rules/source-kind.ts'
import { protocolIds, sourcesOf } from '#tests/support/shipped-protocols.ts'

describe('a source', () => {
  it.each<readonly [string, SourceKind]>([
    ['our choice', 'choice'],
    ['our choice: what is eased must be felt', 'choice'],
    ['common practice, no source', 'practice'],
    ['Conley 1997, found: 3 x 10', 'research'],
    ['ACSM 2026, found: 2-3 sets for strength; the 3 is our choice', 'research-and-choice'],
    ['our choice, with tests every 4 weeks as in Taylor 2006', 'research-and-choice'],
  ])('"%s" is told as %s', (source, kind) => {
    expect(sourceKindOf(source)).toBe(kind)
  })

  it('of a shipped protocol that is told as practice says so', () => {
    const practice = protocolIds.flatMap((id) => [...sourcesOf(id).values()]).filter((source) => sourceKindOf(source) === 'practice')
    expect(practice.length).toBeGreaterThan(0)
    expect(practice.filter((source) => !source.includes('common practice, no source'))).toEqual([])
  })
})
