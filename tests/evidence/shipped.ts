import { readFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import { exerciseSchema } from '#src/content/exercise-schema.ts'
import { ladderSchema } from '#src/content/ladder-schema.ts'
import { measuresSchema } from '#src/content/measures-schema.ts'
import { protocolSchema } from '#src/content/protocol-schema.ts'
import { readShaped } from '#src/content/read-shaped.ts'
import { triageSchema } from '#src/content/triage-schema.ts'
import type { LadderId } from '#src/domain/direction.ts'
import type { Exercise, Ladder } from '#src/domain/exercise.ts'
import type { Measures } from '#src/domain/measure.ts'
import type { Protocol } from '#src/domain/protocol.ts'
import type { Gates } from '#src/domain/triage.ts'

type Schema<T> = Parameters<typeof readShaped<T>>[2]

/** A file as it ships: the checks are made against what a clinic gets, not against a copy of its numbers. */
function read<T>(path: string, schema: Schema<T>): T {
  const text = readFileSync(fileURLToPath(new URL(`../../content/${path}`, import.meta.url)), 'utf8')
  const reading = readShaped(text, path, schema)
  if (reading.kind === 'unreadable') throw new Error(`content/${path} cannot be read`)
  return reading.value
}

export const novice: Protocol = read('protocols/novice.yaml', protocolSchema)
export const gates: Gates = read('triage.yaml', triageSchema).gates
export const measures: Measures = read('measures.yaml', measuresSchema)

export function shippedLadder(id: LadderId): Ladder {
  return read(`ladders/${id}.yaml`, ladderSchema)
}

export function shippedExercise(id: string): Exercise {
  return read(`exercises/${id}.yaml`, exerciseSchema).exercise
}
