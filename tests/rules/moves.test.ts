import { describe, expect, it } from 'vitest'
import { comparePlaces, type Chain } from '#src/domain/chain.ts'
import { loadMagnitude, type Dose, type Load } from '#src/domain/dose.ts'
import { brandAs, type ExerciseId } from '#src/domain/identifier.ts'
import { easeFrom, lowestOfRung, maintainAt, placeAt, progressFrom, restartFrom, stepBackFrom, type PlaceIndex } from '#src/rules/moves.ts'
import { chainFor, extensionPlan, nameOf, novice, placeNamed, samplePlans } from '../support/sample-chain.ts'

const protocol = novice()

/** The moves from the most to the least demanding, as the table of decisions has them. */
const moves: readonly { readonly name: string; readonly move: (chain: Chain, index: PlaceIndex) => PlaceIndex }[] = [
  { name: 'progress', move: progressFrom },
  { name: 'held by a gate', move: (_chain, index) => index },
  { name: 'maintain', move: maintainAt },
  { name: 'ease', move: (chain, index) => easeFrom(chain, index, protocol) },
  { name: 'step back', move: (chain, index) => stepBackFrom(chain, index, () => true).place },
]

/** Clean sessions from each place to the top of the chain. */
function wayToGo(chain: Chain): readonly number[] {
  const way: number[] = chain.places.map(() => 0)
  for (let index = chain.places.length - 2; index >= 0; index -= 1) way[index] = 1 + (way[progressFrom(chain, index)] ?? 0)
  return way
}

describe.each(samplePlans)('the chain of a client with $name', ({ plan }) => {
  const chain = chainFor(plan)
  const indices = chain.places.map((_, index) => index)
  const way = wayToGo(chain)

  it('rises strictly from place to place', () => {
    const falls = indices.slice(1).filter((index) => comparePlaces(placeAt(chain, index - 1), placeAt(chain, index)) >= 0)
    expect({ falls, isEmpty: chain.places.length === 0 }).toEqual({ falls: [], isEmpty: false })
  })

  it('has one entry on each rung, with at most three doses below it', () => {
    const rungs = [...new Set(chain.places.map((place) => place.rung))]
    const entries = rungs.map((rung) => {
      const places = chain.places.filter((place) => place.rung === rung)
      return { entries: places.filter((place) => place.isEntry).length, isNearBottom: places.findIndex((place) => place.isEntry) <= 3 }
    })
    expect(entries).toEqual(rungs.map(() => ({ entries: 1, isNearBottom: true })))
  })

  it('never raises load and repetitions in one progress', () => {
    const both = indices.filter((index) => {
      const from = placeAt(chain, index)
      const to = placeAt(chain, progressFrom(chain, index))
      return from.rung === to.rung && loadMagnitude(to.dose.load) > loadMagnitude(from.dose.load) && to.dose.reps > from.dose.reps
    })
    expect(both).toEqual([])
  })

  it('makes the dose before a load step, and the last of a rung, stand twice', () => {
    const wrong = indices.filter((index) => {
      const [here, next] = [placeAt(chain, index), chain.places[index + 1]]
      const isLast = next === undefined || next.rung !== here.rung || loadMagnitude(next.dose.load) > loadMagnitude(here.dose.load)
      return isLast !== (here.standing === 'again')
    })
    expect(wrong).toEqual([])
  })

  it('eases by at least a tenth, in load or at the same load in hold or repetitions, or to the lowest dose of the rung', () => {
    const tooLittle = indices.filter((index) => {
      const to = easeFrom(chain, index, protocol)
      const [from, lower] = [placeAt(chain, index).dose, placeAt(chain, to).dose]
      const [load, lowerLoad] = [loadMagnitude(from.load), loadMagnitude(lower.load)]
      const isHoldLower = from.holdSeconds !== null && (lower.holdSeconds ?? 0) <= from.holdSeconds * 0.9 + 1e-9
      const isEnough = lowerLoad === load ? lower.reps <= from.reps * 0.9 + 1e-9 || isHoldLower : lowerLoad <= load * 0.9 + 1e-9
      return to !== lowestOfRung(chain, index) && !isEnough
    })
    expect(tooLittle).toEqual([])
  })

  it('stays on the rung when easing, and never lands on a dose as met once already', () => {
    const wrong = indices.filter((index) => {
      const to = placeAt(chain, easeFrom(chain, index, protocol))
      return to.rung !== placeAt(chain, index).rung || to.standing === 'again'
    })
    expect(wrong).toEqual([])
  })

  it.each(['ease', 'step back', 'maintain', 'held by a gate'])('has %s as a non-decreasing function of the place', (name) => {
    const { move } = moves.find((one) => one.name === name) ?? { move: () => Number.NaN }
    const falls = indices.slice(1).filter((index) => !(move(chain, index - 1) <= move(chain, index)))
    expect(falls).toEqual([])
  })

  it('has progress as a non-decreasing function of the place, but for the doses below an entry', () => {
    const atOrAboveEntry = indices.filter((index) => {
      const entry = chain.places.findIndex((place) => place.rung === placeAt(chain, index).rung && place.isEntry)
      return index >= entry
    })
    const targets = atOrAboveEntry.map((index) => progressFrom(chain, index))
    expect(targets).toEqual(targets.toSorted((a, b) => a - b))
  })

  it('gives a worse decision never a higher place than a better one from the same place', () => {
    const wrong = indices.flatMap((index) => {
      const places = moves.map(({ move }) => move(chain, index))
      return places.some((place, rank) => rank > 0 && place > (places[rank - 1] ?? -1)) ? [index] : []
    })
    expect(wrong).toEqual([])
  })

  it('keeps whoever is behind behind, in place and in the way still to go, whatever worse decision they get', () => {
    const isBehind = (lower: PlaceIndex, higher: PlaceIndex): boolean =>
      lower <= higher && (way[lower] ?? 0) >= (way[higher] ?? 0)
    const overtaken: string[] = []
    for (const higher of indices) {
      for (const lower of indices.filter((index) => isBehind(index, higher))) {
        moves.forEach((better, rank) => {
          for (const worse of moves.slice(rank)) {
            const [a, b] = [better.move(chain, higher), worse.move(chain, lower)]
            if (!isBehind(b, a)) overtaken.push(`${better.name} from ${higher} gives ${a}, ${worse.name} from ${lower} gives ${b}`)
          }
        })
      }
    }
    expect(overtaken).toEqual([])
  })

  it.each(['urgent', 'emergency'] as const)('restarts after an %s lock no higher than one ease down', (level) => {
    const wrong = indices.filter((index) => restartFrom(chain, index, level, protocol) > easeFrom(chain, index, protocol))
    expect(wrong).toEqual([])
  })
})

/** Where a move leads in the chain of the plan to try, by names. */
function led(from: string, move: (chain: Chain, index: PlaceIndex) => PlaceIndex): string {
  const chain = chainFor(extensionPlan)
  return nameOf(placeAt(chain, move(chain, chain.places.indexOf(placeNamed(chain, from)))))
}

describe('a dose eased', () => {
  it.each([
    ['two loads down where one is less than a tenth', '4 3 × 8, 2.9 kg', '4 3 × 14, 2.4 kg'],
    ['the nearest load that is a tenth lower, at its most repetitions met once', '4 3 × 8, 1.4 kg', '4 3 × 14, 1.15 kg'],
    ['no further than the next harder dose does', '4 3 × 12, 2.65 kg', '4 3 × 14, 2.15 kg'],
    ['by repetitions at the same load', '4 3 × 12, 2.9 kg', '4 3 × 10, 2.9 kg'],
    ['from met again as from met once', '4 3 × 12, 2.9 kg, again', '4 3 × 10, 2.9 kg'],
    ['the lowest of the rung where nothing is a tenth lower', '3 3 × 8, 19.6 N', '3 3 × 4, 17.9 N'],
    ['by hold', '2 3 × 5 × 10 s, push 5', '2 3 × 5 × 8 s, push 5'],
    ['by push', '2 3 × 5 × 5 s, push 5', '2 3 × 5 × 10 s, push 3'],
    ['by repetitions of a hold', '5 3 × 4 × 3 s', '5 3 × 3 × 3 s'],
    ['by the hold where the repetitions stay', '5 3 × 6 × 5 s', '5 3 × 6 × 4 s'],
  ])('is %s', (_, from, to) => {
    expect(led(from, (chain, index) => easeFrom(chain, index, protocol))).toBe(to)
  })
})

const weight = (kilograms: number): Load => ({ kind: 'mass', kilograms, plates: [] })

/** A chain of one rung out of bare doses, the first its entry. */
function chainOfDoses(...doses: readonly Omit<Dose, 'sets'>[]): Chain {
  const place = { rung: 1, exercise: brandAs<ExerciseId>('lift'), standing: 'only', needsApproval: false, isTherapistOnly: false } as const
  return { ladder: 'extension', places: doses.map((dose, index) => ({ ...place, dose: { sets: 3, ...dose }, isEntry: index === 0 })) }
}

describe('exactly a tenth', () => {
  const lowest = { reps: 1, holdSeconds: null, load: weight(1) }
  const shortest = { reps: 1, holdSeconds: 1, load: weight(0) }

  it.each([
    ['of the load is enough', [lowest, { ...lowest, reps: 8, load: weight(9) }, { ...lowest, reps: 8, load: weight(10) }], 1],
    ['of the load less a gram is not', [lowest, { ...lowest, reps: 8, load: weight(9.001) }, { ...lowest, reps: 8, load: weight(10) }], 0],
    ['of the repetitions is enough', [lowest, { ...lowest, reps: 9, load: weight(10) }, { ...lowest, reps: 10, load: weight(10) }], 1],
    ['of the hold is enough', [shortest, { ...shortest, holdSeconds: 9 }, { ...shortest, holdSeconds: 10 }], 1],
    ['of the hold is not, with more repetitions', [shortest, { ...shortest, holdSeconds: 9, reps: 2 }, { ...shortest, holdSeconds: 10 }], 0],
    ['of the repetitions is not, with no hold to shorten', [lowest, { ...lowest, reps: 10, load: weight(10) }, { ...lowest, reps: 11, load: weight(10) }], 0],
  ])('%s', (_, doses, expected) => {
    const chain = chainOfDoses(...doses)
    expect(easeFrom(chain, chain.places.length - 1, protocol)).toBe(expected)
  })

  it('is what the protocol says, and another may say otherwise', () => {
    const chain = chainOfDoses(lowest, { ...lowest, load: weight(8) }, { ...lowest, load: weight(9) }, { ...lowest, load: weight(10) })
    const easings = [0.1, 0.2, 0.1].map((atLeast) => easeFrom(chain, 3, { ...protocol, ease: { atLeast } }))
    expect(easings).toEqual([2, 1, 2])
  })
})

describe('a dose that stands twice', () => {
  it('is eased to where it is met once', () => {
    const { places, ladder } = chainOfDoses({ reps: 8, holdSeconds: null, load: weight(4) }, { reps: 8, holdSeconds: null, load: weight(8) }, { reps: 8, holdSeconds: null, load: weight(10) })
    const [lowest, twice, highest] = places as [Chain['places'][number], Chain['places'][number], Chain['places'][number]]
    const chain: Chain = { ladder, places: [lowest, { ...twice, standing: 'once' }, { ...twice, standing: 'again' }, highest] }
    expect(easeFrom(chain, 3, protocol)).toBe(1)
  })
})

describe('training that starts again after a lock', () => {
  it.each([
    ['urgent', '3 3 × 12, 25.2 N', '3 3 × 10, 25.2 N'],
    ['emergency', '3 3 × 12, 25.2 N', '3 3 × 8, 17.9 N'],
    ['urgent', '4 3 × 8, 0.4 kg', '4 3 × 6, 0.4 kg'],
    ['emergency', '4 3 × 8, 0.4 kg', '4 3 × 6, 0.4 kg'],
  ] as const)('goes, when it was %s, from %s to %s', (level, from, to) => {
    expect(led(from, (chain, index) => restartFrom(chain, index, level, protocol))).toBe(to)
  })
})

describe('a place outside the chain', () => {
  it.each([-1, 3])('is a mistake of ours: %i of three', (index) => {
    const dose = { reps: 1, holdSeconds: null, load: weight(1) }
    expect(() => placeAt(chainOfDoses(dose, dose, dose), index)).toThrow(new RangeError(`no place ${index} in a chain of 3`))
  })
})
