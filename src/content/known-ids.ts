import type { Exercise } from '#src/domain/exercise.ts'
import type { Gates } from '#src/domain/triage.ts'

/** Every condition that a gate knows. */
export function knownConditions(gates: Gates): readonly string[] {
  return [...new Set([...gates.refusing, ...gates.refusingWithoutClearance, ...gates.limiting, ...gates.noBridge, ...gates.noted])]
}

/** Every restriction that changes what is prescribed; the content's own list holds no other. */
export function knownRestrictions(exercises: Iterable<Exercise>): readonly string[] {
  return unique(exercises, (exercise) => [...exercise.ruledOutBy.restrictions, ...exercise.chosenFor])
}

/** Every contraindication that rules an exercise out; any other would be written down and change nothing. */
export function knownContraindications(exercises: Iterable<Exercise>): readonly string[] {
  return unique(exercises, (exercise) => exercise.ruledOutBy.contraindications)
}

function unique(exercises: Iterable<Exercise>, idsOf: (exercise: Exercise) => readonly string[]): readonly string[] {
  return [...new Set([...exercises].flatMap(idsOf))].sort()
}
