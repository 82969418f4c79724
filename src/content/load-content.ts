import type { z } from 'zod'
import type { LadderId } from '#src/domain/direction.ts'
import type { Ladder } from '#src/domain/exercise.ts'
import type { ExerciseId } from '#src/domain/identifier.ts'
import { assumptionsSchema } from './assumptions-schema.ts'
import { checkReferences } from './check-references.ts'
import { openContentFolder, type ContentFile } from './content-folder.ts'
import type { Content } from './content.ts'
import { exerciseSchema } from './exercise-schema.ts'
import { ladderSchema } from './ladder-schema.ts'
import { loadLanguages } from './load-languages.ts'
import { measuresSchema } from './measures-schema.ts'
import { ContentError, type Problem } from './problem.ts'
import { protocolFileSchema } from './protocol-schema.ts'
import { readShaped, type Sourced } from './read-shaped.ts'
import { restrictionsSchema } from './restrictions-schema.ts'
import { triageSchema } from './triage-schema.ts'

/**
 * Reads and checks the content folder. Throws a {@link ContentError} that lists every problem at once: whoever mends
 * content should not have to start again for each.
 */
export function loadContent(root: string): Content {
  const problems: Problem[] = []
  const folder = openContentFolder(root, problems)
  const shaped = <T>(file: ContentFile | null, schema: z.ZodType<T>): Sourced<T> | null => {
    if (file === null) return null
    const reading = readShaped(file.text, file.file, schema)
    if (reading.kind === 'read') return reading
    problems.push(...reading.problems)
    return null
  }
  const named = <T>(place: string, schema: z.ZodType<T>, key: string, nameOf: (value: T) => string): Sourced<T>[] =>
    folder.list(place).flatMap((file) => {
      const item = shaped(file, schema)
      if (item === null) return []
      if (nameOf(item.value) !== file.name) problems.push(item.source.problem([key], ...misnamed(file.name)))
      return [item]
    })

  const exercises = named('exercises', exerciseSchema, 'id', (file) => file.exercise.id)
  const ladders = named('ladders', ladderSchema, 'id', (ladder) => ladder.id)
  const protocols = named('protocols', protocolFileSchema, 'id', (file) => file.protocol.id)
  const triage = shaped(folder.read('triage.yaml'), triageSchema)
  const restrictions = shaped(folder.read('restrictions.yaml'), restrictionsSchema)
  const measures = shaped(folder.read('measures.yaml'), measuresSchema)
  const assumptions = shaped(folder.read('assumptions.yaml'), assumptionsSchema)
  const languages = loadLanguages(folder, exercises, problems)

  // References are checked only once every file has its shape: else one broken file would seem to break the others.
  if (problems.length > 0 || triage === null || restrictions === null || measures === null || assumptions === null) throw new ContentError(problems)
  const dangling = checkReferences({ exercises, ladders, triage, restrictions })
  if (dangling.length > 0) throw new ContentError(dangling)
  return {
    exercises: new Map(exercises.map(({ value }) => [value.exercise.id as ExerciseId, value.exercise])),
    ladders: new Map(ladders.map(({ value }): [LadderId, Ladder] => [value.id, value])),
    protocols: new Map(protocols.map(({ value }) => [value.protocol.id, value.protocol])),
    protocolSources: new Map(protocols.map(({ value }) => [value.protocol.id, value.sources])),
    triage: triage.value,
    // The folder says what is signed, never that it is: whose signature counts is for whoever puts the product together.
    signature: { kind: 'unsigned' },
    measures: measures.value,
    assumptions: assumptions.value,
    restrictions: Object.keys(restrictions.value),
    languages,
  }
}

function misnamed(fileName: string): [message: string, mend: string] {
  return ['is not the name of its file', `Write ${fileName}, or rename the file.`]
}
