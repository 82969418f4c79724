import { describe, expect, it } from 'vitest'
import { comparePlaces } from '#src/domain/chain.ts'
import type { Reason } from '#src/domain/decision.ts'
import { entryOfRung, placeAt } from '#src/rules/moves.ts'
import { placeOnOffer, placesOnOffer, type PlaceOverride } from '#src/rules/place-override.ts'
import { chainFor, extensionPlan, nameOf, placeNamed } from '#tests/support/sample-chain.ts'

const chain = chainFor(extensionPlan)

function override(from: string, gates: readonly Reason['rule'][] = [], isLocked = false): PlaceOverride {
  return { chain, from: placeNamed(chain, from), gates: gates.map((rule) => ({ rule, numbers: {} })), isLocked }
}

function namesOn(offered: PlaceOverride): readonly string[] {
  return placesOnOffer(offered).map((index) => nameOf(placeAt(chain, index)))
}

const bandEntry = nameOf(placeAt(chain, entryOfRung(chain, 3)))

describe('the doses a therapist may set by hand', () => {
  it('are every lower one, and the entry of the next rung', () => {
    expect(namesOn(override('2 3 × 5 × 6 s, push 3'))).toEqual([
      ...chain.places.filter((place) => place.rung === 1 && place.standing !== 'again').map(nameOf),
      '2 3 × 5 × 2 s, push 3',
      '2 3 × 5 × 3 s, push 3',
      '2 3 × 5 × 4 s, push 3',
      '2 3 × 5 × 5 s, push 3',
      bandEntry,
    ])
  })

  it.each([
    ['not shown', ['rung-not-shown'], false],
    ['left too soon', ['rung-too-soon'], false],
    ['entered right after a lock', ['no-progress-after-lock'], false],
    ['not approved, which the act itself does', ['rung-needs-approval'], true],
    ['without automatic progress at a high usual pain', ['usual-pain-high'], true],
  ] as const)('hold the next rung where it is %s: %s → %s', (_title, gates, isOffered) => {
    expect(namesOn(override('2 3 × 5 × 6 s, push 3', gates)).includes(bandEntry)).toBe(isOffered)
  })

  it('do not hold the dose that is met again as a lower one', () => {
    const offered = namesOn(override('2 3 × 5 × 10 s, push 3, again'))
    expect(offered).not.toContain('2 3 × 5 × 10 s, push 3')
    expect(offered).toContain('2 3 × 5 × 8 s, push 3')
  })

  it('are none while locked', () => {
    expect(placesOnOffer(override('2 3 × 5 × 6 s, push 3', [], true))).toEqual([])
  })

  it('from any place of the chain never hold one between it and the next rung’s entry, and never one met again', () => {
    for (const from of chain.places) {
      const offered = placesOnOffer({ chain, from, gates: [], isLocked: false }).map((index) => placeAt(chain, index))
      const upward = offered.filter((place) => comparePlaces(place, from) >= 0)
      const nextRung = chain.places.find((place) => place.rung > from.rung)?.rung
      expect(upward).toEqual(nextRung === undefined ? [] : [placeAt(chain, entryOfRung(chain, nextRung))])
      expect(offered.filter((place) => place.standing === 'again')).toEqual([])
    }
  })
})

describe('a dose that was on offer', () => {
  const offered = override('2 3 × 5 × 6 s, push 3')

  it('is found again in the chain', () => {
    const index = placeOnOffer(offered, placeNamed(chain, '2 3 × 5 × 4 s, push 3'))
    expect(index).toBe(chain.places.indexOf(placeNamed(chain, '2 3 × 5 × 4 s, push 3')))
  })

  it.each([
    ['a higher dose of the rung', placeNamed(chain, '2 3 × 5 × 8 s, push 3')],
    ['a dose of another exercise', { ...placeNamed(chain, '2 3 × 5 × 4 s, push 3'), exercise: placeAt(chain, 0).exercise }],
    ['a dose that the chain does not have', { ...placeNamed(chain, '2 3 × 5 × 4 s, push 3'), dose: { ...placeNamed(chain, '2 3 × 5 × 4 s, push 3').dose, reps: 4 } }],
  ])('is not %s', (_title, wanted) => {
    expect(placeOnOffer(offered, wanted)).toBeNull()
  })
})
