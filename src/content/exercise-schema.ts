import { z } from 'zod'
import { ladderIds } from '#src/domain/direction.ts'
import { compareDoses, type Load } from '#src/domain/dose.ts'
import { equipmentKinds, type Exercise, type ExerciseWords, type HoldStep, type Posture, type Work } from '#src/domain/exercise.ts'
import { brandAs, type ExerciseId } from '#src/domain/identifier.ts'
import { idSchema, listOf, sentenceSchema, sourceSchema, whenWhole } from './scalar-schemas.ts'

/** An exercise as its file holds it: what it asks, and its words by language. */
export interface ExerciseFile {
  readonly exercise: Exercise
  readonly words: ReadonlyMap<string, ExerciseWords>
}

/** A hold never lasts above ten seconds: when that is easy, the exercise changes (common practice, no source). */
const longestHoldSeconds = 10

const climbMend =
  'Order below, entry and above so that push, then hold, then repetitions only rise; all with a push or none.'

const holdStepSchema = z
  .strictObject({
    reps: z.int().min(1).max(12),
    hold_s: z.int().min(1).max(longestHoldSeconds),
    push: z.int().min(1).max(7).nullable(),
  })
  .transform(({ reps, hold_s, push }): HoldStep => ({ reps, holdSeconds: hold_s, push }))

const postureSchema: z.ZodType<Posture> = z
  .strictObject({ head_tilt_deg: z.number().min(0).max(90) })
  .transform(({ head_tilt_deg }) => ({ headTiltDegrees: head_tilt_deg }))

const workSchema: z.ZodType<Work> = z.discriminatedUnion('kind', [
  z
    .strictObject({
      kind: z.literal('holds'),
      below: z.array(holdStepSchema),
      entry: holdStepSchema,
      above: z.array(holdStepSchema),
    })
    .refine(({ below, entry, above }) => climbs([...below, entry, ...above]), {
      error: 'does not climb',
      params: { mend: climbMend },
      ...whenWhole,
    }),
  z
    .strictObject({
      kind: z.literal('repetitions'),
      load: z.enum(['band', 'harness']),
      tempo_s: z.array(z.number().min(0).max(10)).length(3),
    })
    .transform(({ tempo_s, ...work }) => ({ ...work, tempoSeconds: tempo_s })),
])

function climbs(steps: readonly HoldStep[]): boolean {
  const doses = steps.map((step) => ({ sets: 1, reps: step.reps, holdSeconds: step.holdSeconds, load: pushOf(step) }))
  const isOneKind = new Set(doses.map((dose) => dose.load.kind)).size === 1
  return isOneKind && doses.every((dose, index) => index === 0 || compareDoses(doses[index - 1] ?? dose, dose) < 0)
}

function pushOf(step: HoldStep): Load {
  return step.push === null ? { kind: 'none' } : { kind: 'push', effort: step.push }
}

const wordsSchema = z
  .strictObject({
    name: sentenceSchema,
    short: sentenceSchema,
    set_up: z.array(sentenceSchema).min(1),
    movement: z.array(sentenceSchema).min(1),
    breathing: sentenceSchema,
    good_control: sentenceSchema,
    faults: z.array(sentenceSchema).min(1),
    stop_when: z.array(sentenceSchema).min(1),
    cue: sentenceSchema,
  })
  .transform(({ set_up, good_control, stop_when, ...words }): ExerciseWords => ({
    ...words,
    setUp: set_up,
    goodControl: good_control,
    stopWhen: stop_when,
  }))

const fileSchema = z.strictObject({
  id: idSchema,
  ladder: z.enum(ladderIds),
  work: workSchema,
  posture: postureSchema.nullable(),
  rest_s: z.int().min(20).max(300),
  loaded: z.boolean(),
  therapist_only: z.boolean(),
  needs_approval_to_enter: z.boolean(),
  needs_approval_to_leave: z.boolean(),
  equipment: listOf(z.enum(equipmentKinds)),
  ruled_out_by: z.strictObject({ restrictions: listOf(idSchema), contraindications: listOf(idSchema) }),
  chosen_for: listOf(idSchema),
  spacing: z.strictObject({ hours: z.int().min(0).max(96), sessions_per_week: z.int().min(1).max(7).nullable() }),
  silence_told: z.boolean(),
  source: sourceSchema,
  words: z.record(z.string(), wordsSchema),
})

export const exerciseSchema: z.ZodType<ExerciseFile> = fileSchema
  .superRefine((file, context) => {
    const { work, equipment } = file
    const refuse = (path: string, message: string, mend: string): void =>
      context.addIssue({ code: 'custom', path: [path], message, params: { mend } })
    if (work.kind === 'repetitions') {
      const { load } = work
      if (!file.loaded) refuse('loaded', `must be true for a ${load}`, 'Write loaded: true.')
      if (!equipment.includes(load)) refuse('equipment', `must name the ${load}`, `Add ${load} to the list.`)
    }
    // Nobody may leave this bound: what needs a harness or a support, as a bridge does, the therapist approves, and
    // silence in it is told.
    if (!equipment.includes('harness') && !equipment.includes('support')) return
    for (const key of ['needs_approval_to_enter', 'silence_told'] as const) {
      if (!file[key]) refuse(key, 'must be true for a harness or a bridge', `Write ${key}: true.`)
    }
  }, whenWhole)
  .transform((file) => ({ exercise: toExercise(file), words: new Map(Object.entries(file.words)) }))

function toExercise(file: z.output<typeof fileSchema>): Exercise {
  return {
    id: brandAs<ExerciseId>(file.id),
    ladder: file.ladder,
    work: file.work,
    posture: file.posture,
    restSeconds: file.rest_s,
    isLoaded: file.loaded,
    isTherapistOnly: file.therapist_only,
    needsApprovalToEnter: file.needs_approval_to_enter,
    needsApprovalToLeave: file.needs_approval_to_leave,
    equipment: file.equipment,
    ruledOutBy: file.ruled_out_by,
    chosenFor: file.chosen_for,
    spacing: { hours: file.spacing.hours, sessionsPerWeek: file.spacing.sessions_per_week },
    isSilenceTold: file.silence_told,
  }
}
