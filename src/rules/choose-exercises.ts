// Decides: which exercise of each rung a client does, and which rungs are closed to them.
// Source: the plan's restrictions and contraindications; gates of content/triage.yaml. Reviewed 2026-11.
import type { EquipmentKind, Exercise, Ladder } from '#src/domain/exercise.ts'
import type { ExerciseId } from '#src/domain/identifier.ts'
import type { Equipment, Plan } from '#src/domain/plan.ts'
import type { Gates } from '#src/domain/triage.ts'
import { isLimited } from './eligibility.ts'
import { plannedLadder } from './plan-ladders.ts'

export interface RungExercise {
  readonly rung: number
  readonly exercise: Exercise
}

/** The rungs open to a client, easiest first, with the exercise done on each; a rung without one is left out. */
export function chooseExercises(
  plan: Plan,
  ladder: Ladder,
  exercises: ReadonlyMap<ExerciseId, Exercise>,
  gates: Gates,
): readonly RungExercise[] {
  const maxRung = plannedLadder(plan, ladder.id)?.maxRung ?? 0
  const limited = isLimited(plan.screening, gates) && plan.screening.overrideReason === null
  return ladder.rungs
    .filter((rung) => rung.rung <= maxRung)
    .flatMap((rung) => {
      const open = rung.exercises
        .flatMap((id) => exercises.get(id) ?? [])
        .filter((exercise) => isOpen(exercise, plan) && !(limited && exercise.needsApprovalToEnter))
      const chosen = open.find((exercise) => overlaps(exercise.chosenFor, plan.restrictions)) ?? open.find((exercise) => exercise.chosenFor.length === 0)
      return chosen ? [{ rung: rung.rung, exercise: chosen }] : []
    })
}

/** Whether equipment, restrictions and contraindications allow an exercise. */
export function isOpen(exercise: Exercise, plan: Plan): boolean {
  return (
    exercise.equipment.every((kind) => owns[kind](plan.equipment)) &&
    !overlaps(exercise.ruledOutBy.restrictions, plan.restrictions) &&
    !overlaps(exercise.ruledOutBy.contraindications, [...plan.contraindications, ...plan.screening.conditions])
  )
}

const owns: Record<EquipmentKind, (equipment: Equipment) => boolean> = {
  band: (equipment) => equipment.bands.length > 0,
  harness: (equipment) => equipment.harnessKg !== null,
  support: (equipment) => equipment.hasSupport,
  step: (equipment) => equipment.stepCm !== null,
}

function overlaps(a: readonly string[], b: readonly string[]): boolean {
  return a.some((item) => b.includes(item))
}
