// The next session's place on every ladder, as far as it is known.
import type { Content } from '#src/content/content.ts'
import type { ChainPlace } from '#src/domain/chain.ts'
import type { Decision } from '#src/domain/decision.ts'
import type { LadderId } from '#src/domain/direction.ts'
import { locate, placeAt } from '#src/rules/moves.ts'
import { laddersOf } from '#src/rules/plan-ladders.ts'
import type { Chart } from '../chart.ts'
import { chainOf, planOf, stateOf } from './plan-facts.ts'
import { decisionsOf } from './settle-pending.ts'

export interface PlaceAhead {
  readonly place: ChainPlace
  /** What has led to it and is not final yet; null where nothing waits for its decision. */
  readonly decision: Decision | null
}

/** The morning is taken as fine until it is told. In the plan's order. */
export function placesAhead(chart: Chart, content: Content): ReadonlyMap<LadderId, PlaceAhead> {
  const plan = planOf(chart)
  const waiting = decisionsOf(chart, content, true)
  return new Map(
    laddersOf(plan).map((ladder): [LadderId, PlaceAhead] => {
      const decided = waiting.find((one) => one.ladder === ladder)
      const chain = chainOf(plan, ladder, content)
      const { place } = decided?.state ?? stateOf(chart, ladder, content)
      return [ladder, { place: placeAt(chain, locate(chain, place)), decision: decided?.decision ?? null }]
    }),
  )
}
