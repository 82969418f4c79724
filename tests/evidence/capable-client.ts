// A client reduced to a number: how many clean repetitions they could do at the present load before failing. Published
// progressions are written in that number; our rules only see what such a client would answer.
import fc from 'fast-check'
import type { Chain, ChainPlace } from '#src/domain/chain.ts'
import type { SetReport } from '#src/domain/set-report.ts'
import { judgeSession } from '#src/rules/judge-session.ts'
import { newLadderState, type LadderState } from '#src/rules/ladder-state.ts'
import { judgeMorning } from '#src/rules/morning.ts'
import { settle } from '#src/rules/settle.ts'
import { sets } from '#tests/rules/reports.ts'
import { chainFor, novice, samplePlans } from '#tests/support/sample-chain.ts'

const protocol = novice()

export const chains: readonly { readonly name: string; readonly chain: Chain }[] = samplePlans.map(({ name, plan }) => ({
  name,
  chain: chainFor(plan),
}))

/** Printed by fast-check with every failure; fixed, so that a run can be repeated. */
export const seed = 20261125

export const anyPlace: fc.Arbitrary<{ readonly chain: Chain; readonly place: ChainPlace }> = fc
  .constantFrom(...chains)
  .chain(({ chain }) => fc.constantFrom(...chain.places).map((place) => ({ chain, place })))

/** A place of dynamic work against an outside load, which is what the published progressions are about. */
export const anyLoadedPlace = anyPlace.filter(({ place }) => place.dose.holdSeconds === null)

function reportOf(most: number, asked: number): SetReport {
  return { pain: 0, control: 'steady', reserve: Math.max(0, most - asked), finished: most >= asked }
}

/** One painless session with so many repetitions possible in each set, and a fine morning after it. */
export function trainOnce(chain: Chain, state: LadderState, mostBySet: readonly number[]): LadderState {
  const reports = mostBySet.map((most) => reportOf(most, state.place.dose.reps))
  const course = { isStopped: false, endedEarly: false, hasRedFlag: false, isUnmeasuredEntry: false }
  const judgement = judgeSession({ painBefore: 0, sets: sets(...reports), ...course }, 0, protocol)
  const morning = judgeMorning(0, 0, 0, protocol)
  return settle({ chain, state, judgement, morning, gates: [], protocol, isRungOpen: () => true }).state
}

export function startAt(place: ChainPlace): LadderState {
  return newLadderState(place)
}
