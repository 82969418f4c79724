import type { LadderId } from '#src/domain/direction.ts'
import type { Exercise, Ladder } from '#src/domain/exercise.ts'
import type { Triage } from '#src/domain/triage.ts'
import type { ExerciseFile } from './exercise-schema.ts'
import { knownConditions, knownRestrictions } from './known-ids.ts'
import type { Problem } from './problem.ts'
import type { Sourced } from './read-shaped.ts'
import type { PathSegment } from './yaml-source.ts'

export interface ReferenceInput {
  readonly exercises: readonly Sourced<ExerciseFile>[]
  readonly ladders: readonly Sourced<Ladder>[]
  readonly triage: Sourced<Triage>
  readonly restrictions: Sourced<Readonly<Record<string, string>>>
}

/** Ids that stand in one file and should stand in another. */
export function checkReferences(input: ReferenceInput): readonly Problem[] {
  const exercises = input.exercises.map(({ value }) => value.exercise)
  return [
    ...input.ladders.flatMap((ladder) => checkLadder(ladder, exercises)),
    ...input.exercises.flatMap((file) => checkRulings(file, input)),
    ...checkRestrictions(input.restrictions, exercises),
  ]
}

function checkLadder({ value: ladder, source }: Sourced<Ladder>, exercises: readonly Exercise[]): readonly Problem[] {
  const check = (id: string, path: readonly PathSegment[], own: LadderId | null): readonly Problem[] => {
    const exercise = exercises.find((other) => other.id === id)
    if (exercise === undefined) {
      const mend = `Add content/exercises/${id}.yaml, or mend the spelling.`
      return [source.problem(path, 'names an exercise that does not exist', mend)]
    }
    if (own === null || exercise.ladder === own) return []
    return [source.problem(path, `names an exercise of ${exercise.ladder}`, `Name one of ${own}.`)]
  }
  return [
    // A warm-up may come from any ladder: the deep flexors are worked before extension.
    ...ladder.warmUp.flatMap((step, index) => check(step.exercise, ['warm_up', index, 'exercise'], null)),
    ...ladder.rungs.flatMap((rung, index) =>
      rung.exercises.flatMap((id, place) => check(id, ['rungs', index, 'exercises', place], ladder.id)),
    ),
  ]
}

function checkRulings(
  { value, source }: Sourced<ExerciseFile>,
  { triage, restrictions }: ReferenceInput,
): readonly Problem[] {
  const { ruledOutBy, chosenFor } = value.exercise
  const check = (ids: readonly string[], known: KnownIds, path: readonly PathSegment[]): readonly Problem[] =>
    ids.flatMap((id, index) => {
      if (known.ids.includes(id)) return []
      const mend = `Use one of: ${known.ids.join(', ')}; or add it to ${known.file}.`
      return [source.problem([...path, index], `is not known in ${known.file}`, mend)]
    })
  const restricted: KnownIds = { ids: Object.keys(restrictions.value), file: restrictions.source.file }
  const conditions: KnownIds = { ids: knownConditions(triage.value.gates), file: triage.source.file }
  return [
    ...check(ruledOutBy.restrictions, restricted, ['ruled_out_by', 'restrictions']),
    ...check(ruledOutBy.contraindications, conditions, ['ruled_out_by', 'contraindications']),
    ...check(chosenFor, restricted, ['chosen_for']),
  ]
}

interface KnownIds {
  readonly ids: readonly string[]
  readonly file: string
}

/** A restriction that no exercise heeds would give a therapist false security. */
function checkRestrictions(
  { value, source }: ReferenceInput['restrictions'],
  exercises: readonly Exercise[],
): readonly Problem[] {
  const heeded = knownRestrictions(exercises)
  return Object.keys(value)
    .filter((id) => !heeded.includes(id))
    .map((id) => source.problem([id], 'is heeded by no exercise', 'Name it in an exercise, or remove it.'))
}
