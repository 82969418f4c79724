// What follows from a chart's plan and content alone.
import type { Content } from '#src/content/content.ts'
import type { Chain } from '#src/domain/chain.ts'
import { ladderOf, type LadderId } from '#src/domain/direction.ts'
import type { Exercise, Ladder } from '#src/domain/exercise.ts'
import type { ExerciseId, LocalDate } from '#src/domain/identifier.ts'
import type { Plan } from '#src/domain/plan.ts'
import type { Protocol } from '#src/domain/protocol.ts'
import { assumptionsFor } from '#src/rules/assumptions-for.ts'
import { buildChain, type LoadFacts } from '#src/rules/build-chain.ts'
import { protocolFor } from '#src/rules/protocol-for.ts'
import { chooseExercises } from '#src/rules/choose-exercises.ts'
import { plannedLadder, type PlannedLadder } from '#src/rules/plan-ladders.ts'
import { newLadderState, type LadderState } from '#src/rules/ladder-state.ts'
import { placeAt, startOn } from '#src/rules/moves.ts'
import { usableMaximum } from '#src/rules/usable-maximum.ts'
import { localDateOf } from '#src/schedule/wall-time.ts'
import type { Chart } from '../chart.ts'
import type { Draft } from '../draft.ts'

export function planOf(chart: Chart): Plan {
  if (chart.plan === null) throw new RangeError('a chart without a plan')
  return chart.plan
}

/** The therapist at work here, or the one whom the plan names until somebody is. */
export function therapistNameOf(chart: Chart): string {
  return chart.therapist?.name ?? planOf(chart).contacts.therapist.name
}

/** The thresholds in force: the plan's own, and the protocol's for the rest. */
export function protocolOf(plan: Plan, content: Content): Protocol {
  const protocol = content.protocols.get(plan.protocol)
  if (!protocol) throw new RangeError(`no protocol ${plan.protocol}`)
  return protocolFor(plan, protocol)
}

export function exerciseOf(content: Content, id: ExerciseId): Exercise {
  const exercise = content.exercises.get(id)
  if (!exercise) throw new RangeError(`no exercise ${id}`)
  return exercise
}

/** A plan object never changes, so its chains are built once. */
const chains = new WeakMap<Plan, Map<LadderId, Chain>>()

export function chainOf(plan: Plan, ladder: LadderId, content: Content): Chain {
  const known = chains.get(plan) ?? new Map<LadderId, Chain>()
  chains.set(plan, known)
  const chain = known.get(ladder) ?? buildChainOf(plan, ladder, content)
  known.set(ladder, chain)
  return chain
}

function buildChainOf(plan: Plan, ladder: LadderId, content: Content): Chain {
  return buildChain({
    ladder,
    rungs: chooseExercises(plan, ladderIn(content, ladder), content.exercises, content.triage.gates),
    equipment: plan.equipment,
    protocol: protocolOf(plan, content),
    startRung: plannedOf(plan, ladder).rung,
    loads: loadFactsOf(plan, ladder, content),
  })
}

/** What bounds the loads of a ladder: the measured maximum, the stated assumptions, and the therapist's own limit. */
export function loadFactsOf(plan: Plan, ladder: LadderId, content: Content): LoadFacts {
  const assumptions = assumptionsFor(plan.assumptions, content.assumptions)
  const stated = plan.ladders.flatMap((own) => (ladderOf(own.direction) === ladder && own.targetKg !== undefined ? [own.targetKg] : []))
  return {
    maximum: usableMaximum(plan.measurements, ladder, assumptions),
    assumptions,
    targetKg: stated.length === 0 ? null : Math.min(...stated),
  }
}

export function ladderIn(content: Content, id: LadderId): Ladder {
  const ladder = content.ladders.get(id)
  if (!ladder) throw new RangeError(`no ladder ${id}`)
  return ladder
}

export function plannedOf(plan: Plan, ladder: LadderId): PlannedLadder {
  const planned = plannedLadder(plan, ladder)
  if (!planned) throw new RangeError('a ladder that the plan does not have')
  return planned
}

/** The state on a ladder, or the one it starts with: the entry of the plan's rung. */
export function stateOf(chart: Chart, ladder: LadderId, content: Content): LadderState {
  const known = chart.states[ladder]
  if (known) return known
  const plan = planOf(chart)
  const chain = chainOf(plan, ladder, content)
  return newLadderState(placeAt(chain, startOn(chain, plannedOf(plan, ladder).rung)))
}

/** Everything shown in person: in the plan, and since. */
export function shownOf(chart: Chart, ladder: LadderId): readonly ExerciseId[] {
  return [...plannedOf(planOf(chart), ladder).shown, ...chart.shown]
}

/** Whether a rung may be gone back to: its exercise was shown. */
export function isRungOpen(chart: Chart, ladder: LadderId, content: Content): (rung: number) => boolean {
  const chain = chainOf(planOf(chart), ladder, content)
  const shown = shownOf(chart, ladder)
  return (rung) => chain.places.some((place) => place.rung === rung && shown.includes(place.exercise))
}

export function todayOf(draft: Draft<Chart>): LocalDate {
  return localDateOf(draft.at, planOf(draft.document).zone)
}

