// Sources as in published/delorme-oxford.ts: DeLorme 1948 and Zinovieff 1951 [memory:high]. Worked values [calc].
import { describe, expect, it } from 'vitest'
import { loadMagnitude, type Load } from '#src/domain/dose.ts'
import { assumptionsFor } from '#src/rules/assumptions-for.ts'
import { warmUpLoad } from '#src/rules/warm-up-load.ts'
import { chainFor, content, novice, samplePlans } from '#tests/support/sample-chain.ts'
import { delorme, oxford } from './published/delorme-oxford.ts'

describe('three sets of ten', () => {
  it('rise or fall by quarters of the ten-repetition maximum: 8 kg gives 4, 6 and 8 kg, and the reverse', () => {
    expect([delorme(8), oxford(8)]).toEqual([[4, 6, 8], [8, 6, 4]])
  })
})

describe('our loaded warm-up', () => {
  const assumptions = assumptionsFor(undefined, content.assumptions)
  const warmUps = samplePlans.flatMap(({ plan }) => chainFor(plan).places.flatMap(({ dose }) => {
    const facts = { ladder: 'extension', protocol: novice(), equipment: plan.equipment, maximum: null, assumptions } as const
    const warmUp = warmUpLoad(dose, facts)
    return warmUp === null ? [] : [{ today: dose.load, warmUp }]
  }))

  it('is never heavier than the first of those sets would be, were today’s load the maximum, and never longer (DeLorme 1948)', () => {
    const isTooMuch = (today: Load, load: Load): boolean => loadMagnitude(load) > (delorme(loadMagnitude(today))[0] ?? 0) + 1e-9
    expect(warmUps.length).toBeGreaterThan(20)
    expect(warmUps.filter(({ today, warmUp }) => isTooMuch(today, warmUp.load) || warmUp.reps > 10 || warmUp.sets > 1)).toEqual([])
  })
})
