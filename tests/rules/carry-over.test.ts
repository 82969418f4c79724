import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { comparePlaces } from '#src/domain/chain.ts'
import { brandAs, type LocalDate } from '#src/domain/identifier.ts'
import { carryOver, startAnew } from '#src/rules/carry-over.ts'
import { noRuns } from '#src/rules/decide.ts'
import { newLadderState, type LadderState } from '#src/rules/ladder-state.ts'
import { entryOfRung, placeAt } from '#src/rules/moves.ts'
import { chainFor, extensionPlan, nameOf, placeNamed, samplePlans } from '#tests/support/sample-chain.ts'
import { seed } from '../properties/runs.ts'

const on = brandAs<LocalDate>('2026-02-02')
const chain = chainFor(extensionPlan)
/** The band's entry force depends on the measured maximum. */
const bandEntry = nameOf(placeAt(chain, entryOfRung(chain, 3)))
const bridge = placeNamed(chain, '5 3 × 5 × 3 s')

/** After a hard time on a place. */
function worn(name: string): LadderState {
  const place = placeNamed(chain, name)
  const runs = { ...noRuns, amber: 2, red: 1 }
  return { ...newLadderState(place), runs, rungs: { 2: { firstOn: on, sessions: 9 } }, lastTrained: { on: brandAs<LocalDate>('2026-01-12'), place } }
}

describe('a state under another plan', () => {
  it('stays as it is where the chain holds the same place', () => {
    const state = worn('2 3 × 5 × 8 s, push 3')
    expect(carryOver({ state, chain, newStart: null, on })).toEqual({ ...state, place: placeNamed(chain, '2 3 × 5 × 8 s, push 3') })
  })

  it('goes to the highest place that is not harder where its own is gone', () => {
    const noHarness = chainFor({ ...extensionPlan, equipment: { ...extensionPlan.equipment, harnessKg: null, stepCm: null } })
    const state = { ...newLadderState(bridge), runs: { ...noRuns, amber: 1 } }
    const carried = carryOver({ state, chain: noHarness, newStart: null, on })
    expect(carried.place).toEqual(noHarness.places.at(-1))
    expect(carried.runs).toEqual(state.runs)
  })

  it('is held where even the lowest dose is harder', () => {
    const bandOnly = { ...chain, places: chain.places.filter((place) => place.rung >= 3) }
    const carried = carryOver({ state: worn('2 3 × 5 × 8 s, push 3'), chain: bandOnly, newStart: null, on })
    expect([carried.place, carried.isHeld]).toEqual([bandOnly.places[0], true])
  })

  it('begins where the therapist names another start: runs end, time off counts from that day, what was counted stays', () => {
    const carried = carryOver({ state: { ...worn(bandEntry), isHeld: true }, chain, newStart: 2, on })
    const place = placeNamed(chain, '2 3 × 5 × 5 s, push 3')
    expect(carried).toMatchObject({ place, runs: noRuns, isHeld: false, lastTrained: { on, place }, rungs: { 2: { firstOn: on, sessions: 9 } } })
  })

  it('that was never trained has no time off either', () => {
    expect(startAnew(newLadderState(bridge), chain, 0, on).lastTrained).toBeNull()
  })

  it(`is never harder than before, from any place of any chain to any other chain, unless it is held (seed ${seed})`, () => {
    const chains = samplePlans.map(({ plan }) => chainFor(plan))
    const anyChain = fc.constantFrom(...chains)
    fc.assert(
      fc.property(anyChain, anyChain, fc.nat(), (before, after, nth) => {
        const place = placeAt(before, nth % before.places.length)
        const carried = carryOver({ state: newLadderState(place), chain: after, newStart: null, on })
        return carried.isHeld ? comparePlaces(carried.place, place) > 0 : comparePlaces(carried.place, place) <= 0
      }),
      { seed, numRuns: 2000 },
    )
  })
})
