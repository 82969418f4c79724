// Source as in published/two-for-two.ts: Graves and Baechle; NSCA. Our own table of single cases is in load-steps.test.ts;
// here whole sequences of sessions are held against the rule.
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { loadMagnitude } from '#src/domain/dose.ts'
import { anyLoadedPlace, seed, startAt, trainOnce } from './capable-client.ts'
import { mayRaise } from './published/two-for-two.ts'

describe('the published cases', () => {
  it.each([
    [[12, 12], true],
    [[12, 11], false],
    [[11, 12], false],
    [[13, 12], true],
    [[12], false],
    [[12, 11, 12], false],
    [[11, 12, 12], true],
  ])('for a goal of 10 the last sets %j raise: %s', (lastSets, raises) => {
    expect(mayRaise(10, lastSets)).toBe(raises)
  })
})

describe('a load of ours', () => {
  const anySession = fc.array(fc.integer({ min: 4, max: 22 }), { minLength: 3, maxLength: 3 })
  const strongSession = fc.constant([20, 20, 20])
  const mostlyStrong = fc.oneof({ weight: 3, arbitrary: strongSession }, { weight: 1, arbitrary: anySession })
  const anyCourse = fc.array(mostlyStrong, { minLength: 2, maxLength: 12 })

  /** Nothing was met there yet. */
  const anyStart = anyLoadedPlace.filter(({ place }) => place.standing !== 'again')

  it('only ever rises after two sessions running at the same dose with two over the goal in the last set', () => {
    let rises = 0
    fc.assert(
      fc.property(anyStart, anyCourse, ({ chain, place }, course) => {
        const trained: { readonly dose: string; readonly last: number }[] = []
        let state = startAt(place)
        for (const mostBySet of course) {
          const { dose, rung } = state.place
          trained.push({ dose: JSON.stringify(dose), last: mostBySet.at(-1) ?? 0 })
          state = trainOnce(chain, state, mostBySet)
          const isLoadStep = state.place.rung === rung && loadMagnitude(state.place.dose.load) > loadMagnitude(dose.load)
          if (!isLoadStep) continue
          rises += 1
          const running = trained.slice(-2)
          expect(running.map((session) => session.dose)).toEqual([JSON.stringify(dose), JSON.stringify(dose)])
          expect(mayRaise(dose.reps, running.map((session) => session.last))).toBe(true)
        }
      }),
      { seed, numRuns: 3000 },
    )
    expect(rises).toBeGreaterThan(500)
  })
})
