// What is done before the first set, without answers: the steps of the ladders, and for a loaded dose one light set.
import { directionsOf, type Direction } from '#src/domain/direction.ts'
import type { Dose } from '#src/domain/dose.ts'
import type { ExerciseId } from '#src/domain/identifier.ts'
import { warmUpLoad } from '#src/rules/warm-up-load.ts'
import type { Chart, Prescribed } from '../chart.ts'
import type { Draft } from '../draft.ts'
import { exerciseOf, ladderIn, loadFactsOf, planOf, protocolOf } from './plan-facts.ts'

export interface WarmUp {
  /** Where it is counted; an unloaded step works no side and stands under the first direction of its ladder. */
  readonly direction: Direction
  readonly exercise: ExerciseId
  readonly dose: Dose
}

/** Every step of the ladders prescribed, each once, however many of them ask for it. */
export function easyWarmUps(draft: Draft<Chart>, prescribed: readonly Prescribed[]): readonly WarmUp[] {
  const steps = prescribed.flatMap(({ ladder }) => ladderIn(draft.content, ladder).warmUp)
  const once = steps.filter((step, index) => steps.findIndex((other) => other.exercise === step.exercise) === index)
  return once.flatMap(({ exercise, ...dose }) => {
    const [direction] = directionsOf(exerciseOf(draft.content, exercise).ladder)
    return direction ? [{ direction, exercise, dose: { ...dose, load: { kind: 'none' as const } } }] : []
  })
}

/** The light set before a loaded dose, on each side; null where the dose is not loaded or nothing owned is light enough. */
export function loadedWarmUp(draft: Draft<Chart>, { ladder, direction, place, dose }: Prescribed): WarmUp | null {
  const plan = planOf(draft.document)
  const { maximum, assumptions } = loadFactsOf(plan, ladder, draft.content)
  const light = warmUpLoad(dose, { ladder, protocol: protocolOf(plan, draft.content), equipment: plan.equipment, maximum, assumptions })
  return light && { direction, exercise: place.exercise, dose: light }
}

export function warmUpsOf(draft: Draft<Chart>, prescribed: readonly Prescribed[]): readonly WarmUp[] {
  return [...easyWarmUps(draft, prescribed), ...prescribed.flatMap((one) => loadedWarmUp(draft, one) ?? [])]
}
