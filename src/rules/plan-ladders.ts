// Decides: what a plan asks on one ladder; the two sides of a movement are taken together.
// Source: our choice: two sides, one state, the weaker side first. Reviewed 2026-11.
import { ladderOf, type Direction, type LadderId } from '#src/domain/direction.ts'
import type { ExerciseId } from '#src/domain/identifier.ts'
import type { LadderPlan, Plan } from '#src/domain/plan.ts'
import { compareStrength, latestOf } from './usable-maximum.ts'

export interface PlannedLadder {
  readonly ladder: LadderId
  /** In the order of work. */
  readonly directions: readonly Direction[]
  readonly rung: number
  readonly maxRung: number
  /** Shown in person for either side: whoever was shown one side knows the other. */
  readonly shown: readonly ExerciseId[]
}

/** The ladders of a plan, in the plan's order. */
export function laddersOf(plan: Plan): readonly LadderId[] {
  return [...new Set(plan.ladders.map(({ direction }) => ladderOf(direction)))]
}

/** Null where the plan does not train it. */
export function plannedLadder(plan: Plan, ladder: LadderId): PlannedLadder | null {
  const own = plan.ladders.filter(({ direction }) => ladderOf(direction) === ladder)
  if (own.length === 0) return null
  return {
    ladder,
    directions: weakerFirst(plan, own),
    // A checked plan has both sides agree; the easier rung counts all the same.
    rung: Math.min(...own.map(({ rung }) => rung)),
    maxRung: Math.min(...own.map(({ maxRung }) => maxRung)),
    shown: [...new Set(own.flatMap(({ shown }) => shown))],
  }
}

function weakerFirst({ measurements }: Plan, own: readonly LadderPlan[]): readonly Direction[] {
  const [first, second] = own.map(({ direction }) => latestOf(measurements, direction))
  const planned = own.map(({ direction }) => direction)
  return first && second && compareStrength(first, second) > 0 ? planned.toReversed() : planned
}
