// The laws of the moves, whatever protocol a chain was built from: its steps, its repetitions and how far it eases.
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { chainOf } from '#src/chart/client/plan-facts.ts'
import { comparePlaces, type Chain } from '#src/domain/chain.ts'
import { loadMagnitude } from '#src/domain/dose.ts'
import { easeFrom, maintainAt, placeAt, progressFrom, stepBackFrom, type PlaceIndex } from '#src/rules/moves.ts'
import { laddersOf } from '#src/rules/plan-ladders.ts'
import { protocolFor } from '#src/rules/protocol-for.ts'
import type { Plan } from '#src/domain/plan.ts'
import type { Protocol, ThresholdOverrides } from '#src/domain/protocol.ts'
import { allDirectionsPlan, content, samplePlans } from '#tests/support/sample-chain.ts'
import { protocolIds, shippedProtocol } from '#tests/support/shipped-protocols.ts'

const plans = [...samplePlans, { name: 'every direction', plan: allDirectionsPlan }]

interface NamedChain {
  readonly name: string
  readonly chain: Chain
  readonly indices: readonly PlaceIndex[]
}

function chainsUnder(protocol: string): readonly NamedChain[] {
  return plans.flatMap(({ name, plan }) =>
    laddersOf(plan).map((ladder) => {
      const chain = chainOf({ ...plan, protocol }, ladder, content)
      return { name: `${name}, ${ladder}`, chain, indices: chain.places.map((_, index) => index) }
    }),
  )
}

/** From the most to the least demanding. */
function movesUnder(protocol: Protocol): readonly ((chain: Chain, index: PlaceIndex) => PlaceIndex)[] {
  return [
    progressFrom,
    (_chain, index) => index,
    maintainAt,
    (chain, index) => easeFrom(chain, index, protocol),
    (chain, index) => stepBackFrom(chain, index, () => true).place,
  ]
}

/** Clean sessions from each place to the top of the chain. */
function wayToGo(chain: Chain): readonly number[] {
  const way: number[] = chain.places.map(() => 0)
  for (let index = chain.places.length - 2; index >= 0; index -= 1) way[index] = 1 + (way[progressFrom(chain, index)] ?? 0)
  return way
}

/** Whether somebody behind, in place and in the way still to go, can get ahead by a worse decision. */
function isOvertaking(chain: Chain, protocol: Protocol): boolean {
  const moves = movesUnder(protocol)
  const indices = chain.places.map((_, index) => index)
  const way = wayToGo(chain)
  const targets = moves.map((move) => indices.map((index) => move(chain, index)))
  const isBehind = (lower: PlaceIndex, higher: PlaceIndex): boolean => lower <= higher && (way[lower] ?? 0) >= (way[higher] ?? 0)
  return indices.some((higher) => indices.slice(0, higher + 1).some((lower) =>
    isBehind(lower, higher) && targets.some((better, rank) => targets.slice(rank).some((worse) => !isBehind(worse[lower] ?? 0, better[higher] ?? 0)))))
}

describe.each(protocolIds)('every chain under %s', (id) => {
  const protocol = shippedProtocol(id)
  const chains = chainsUnder(id)
  const moves = movesUnder(protocol)
  const failing = (holds: (named: NamedChain) => boolean): readonly string[] => chains.filter((one) => !holds(one)).map(({ name }) => name)

  it('rises strictly, with the sets of the protocol throughout', () => {
    expect(chains.length).toBeGreaterThan(plans.length)
    expect(failing(({ chain, indices }) => indices.slice(1).every((index) => comparePlaces(placeAt(chain, index - 1), placeAt(chain, index)) < 0))).toEqual([])
    expect(failing(({ chain }) => chain.places.every(({ dose }) => dose.sets === protocol.sets[chain.ladder]))).toEqual([])
  })

  it('never raises load and repetitions in one progress', () => {
    expect(failing(({ chain, indices }) => indices.every((index) => {
      const [from, to] = [placeAt(chain, index), placeAt(chain, progressFrom(chain, index))]
      return from.rung !== to.rung || loadMagnitude(to.dose.load) <= loadMagnitude(from.dose.load) || to.dose.reps <= from.dose.reps
    }))).toEqual([])
  })

  it('gives a worse decision never a higher place than a better one', () => {
    expect(failing(({ chain, indices }) => indices.every((index) => {
      const places = moves.map((move) => move(chain, index))
      return places.every((place, rank) => rank === 0 || place <= (places[rank - 1] ?? -1))
    }))).toEqual([])
  })

  it('keeps whoever is behind behind, whatever worse decision they get', () => {
    expect(failing(({ chain }) => !isOvertaking(chain, protocol))).toEqual([])
  })
})

const rising = (least: number, most: number, minLength: number, maxLength: number) =>
  fc.uniqueArray(fc.integer({ min: least, max: most }), { minLength, maxLength }).map((list) => list.toSorted((a, b) => a - b))

/** Anything that a therapist may set about how a chain climbs and eases. */
const anyThresholds: fc.Arbitrary<ThresholdOverrides> = fc.record({
  repetitions: fc.record({ below: rising(1, 6, 1, 3), range: rising(7, 18, 2, 8), beyond: rising(19, 30, 2, 3) }),
  ease: fc.record({ atLeast: fc.integer({ min: 5, max: 30 }).map((hundredths) => hundredths / 100) }),
  loadStep: fc.record({ largest: fc.integer({ min: 2, max: 15 }).map((hundredths) => hundredths / 100) }),
  sets: fc.record({ extension: fc.integer({ min: 1, max: 4 }) }),
})

describe('whatever a therapist sets inside the bounds', () => {
  it('nobody gets ahead by a worse decision', () => {
    fc.assert(
      fc.property(anyThresholds, fc.constantFrom(...samplePlans), (thresholds, { plan: base }) => {
        const plan: Plan = { ...base, thresholds }
        expect(isOvertaking(chainOf(plan, 'extension', content), protocolFor(plan, shippedProtocol('novice')))).toBe(false)
      }),
      { numRuns: 60 },
    )
  })
})
