// What follows from a chart's plan and content alone.
import type { Content } from '#src/content/content.ts'
import type { Chain } from '#src/domain/chain.ts'
import type { Direction } from '#src/domain/direction.ts'
import type { Exercise } from '#src/domain/exercise.ts'
import type { ExerciseId, LocalDate } from '#src/domain/identifier.ts'
import type { Plan } from '#src/domain/plan.ts'
import type { Protocol } from '#src/domain/protocol.ts'
import { toNewtons } from '#src/domain/units.ts'
import { buildChain } from '#src/rules/build-chain.ts'
import { chooseExercises } from '#src/rules/choose-exercises.ts'
import { newDirectionState, type DirectionState } from '#src/rules/direction-state.ts'
import { placeAt, startOn } from '#src/rules/moves.ts'
import { localDateOf } from '#src/schedule/wall-time.ts'
import type { Chart } from '../chart.ts'
import type { Draft } from '../draft.ts'

export function planOf(chart: Chart): Plan {
  if (chart.plan === null) throw new RangeError('a chart without a plan')
  return chart.plan
}

export function protocolOf(plan: Plan, content: Content): Protocol {
  const protocol = content.protocols.get(plan.protocol)
  if (!protocol) throw new RangeError(`no protocol ${plan.protocol}`)
  return protocol
}

export function exerciseOf(content: Content, id: ExerciseId): Exercise {
  const exercise = content.exercises.get(id)
  if (!exercise) throw new RangeError(`no exercise ${id}`)
  return exercise
}

/** A plan object never changes, so its chains are built once. */
const chains = new WeakMap<Plan, Map<Direction, Chain>>()

export function chainOf(plan: Plan, direction: Direction, content: Content): Chain {
  const known = chains.get(plan) ?? new Map<Direction, Chain>()
  chains.set(plan, known)
  const chain = known.get(direction) ?? buildChainOf(plan, direction, content)
  known.set(direction, chain)
  return chain
}

function buildChainOf(plan: Plan, direction: Direction, content: Content): Chain {
  const ladder = content.ladders.get(direction)
  if (!ladder) throw new RangeError(`no ladder for ${direction}`)
  const own = plan.ladders.find((one) => one.direction === direction)
  return buildChain({
    direction,
    rungs: chooseExercises(plan, ladder, content.exercises, content.triage.gates),
    equipment: plan.equipment,
    protocol: protocolOf(plan, content),
    maximumN: maximumOf(plan, direction),
    startRung: own?.rung ?? 1,
  })
}

/** The latest measured maximum of a direction, in newtons. */
export function maximumOf(plan: Plan, direction: Direction): number | null {
  const measured = plan.measurements.filter((measurement) => measurement.direction === direction).at(-1)
  return measured ? toNewtons(measured.force, measured.unit) : null
}

/** The state of a direction, or the one it starts with: the entry of the plan's rung. */
export function stateOf(chart: Chart, direction: Direction, content: Content): DirectionState {
  const known = chart.states[direction]
  if (known) return known
  const plan = planOf(chart)
  const chain = chainOf(plan, direction, content)
  const rung = plan.ladders.find((own) => own.direction === direction)?.rung ?? 1
  return newDirectionState(placeAt(chain, startOn(chain, rung)))
}

export function directionsOf(plan: Plan): readonly Direction[] {
  return plan.ladders.map((ladder) => ladder.direction)
}

/** Everything shown in person: in the plan, and since. */
export function shownOf(chart: Chart, direction: Direction): readonly ExerciseId[] {
  const own = planOf(chart).ladders.find((ladder) => ladder.direction === direction)
  return [...(own?.shown ?? []), ...chart.shown]
}

/** Whether a rung may be gone back to: its exercise was shown. */
export function isRungOpen(chart: Chart, direction: Direction, content: Content): (rung: number) => boolean {
  const chain = chainOf(planOf(chart), direction, content)
  const shown = shownOf(chart, direction)
  return (rung) => chain.places.some((place) => place.rung === rung && shown.includes(place.exercise))
}

export function todayOf(draft: Draft<Chart>): LocalDate {
  return localDateOf(draft.at, planOf(draft.document).zone)
}

