// The laws of the moves, whatever protocol a chain was built from: its steps, its repetitions and how far it eases.
import { describe, expect, it } from 'vitest'
import { chainOf } from '#src/chart/client/plan-facts.ts'
import { comparePlaces, type Chain } from '#src/domain/chain.ts'
import { loadMagnitude } from '#src/domain/dose.ts'
import { easeFrom, maintainAt, placeAt, progressFrom, stepBackFrom, type PlaceIndex } from '#src/rules/moves.ts'
import { laddersOf } from '#src/rules/plan-ladders.ts'
import type { Protocol } from '#src/domain/protocol.ts'
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
    expect(failing(({ chain, indices }) => !isOvertaking(chain, indices))).toEqual([])
  })

  function isOvertaking(chain: Chain, indices: readonly PlaceIndex[]): boolean {
    const way = wayToGo(chain)
    const targets = moves.map((move) => indices.map((index) => move(chain, index)))
    const isBehind = (lower: PlaceIndex, higher: PlaceIndex): boolean => lower <= higher && (way[lower] ?? 0) >= (way[higher] ?? 0)
    return indices.some((higher) => indices.slice(0, higher + 1).some((lower) =>
      isBehind(lower, higher) && targets.some((better, rank) => targets.slice(rank).some((worse) => !isBehind(worse[lower] ?? 0, better[higher] ?? 0)))))
  }
})
