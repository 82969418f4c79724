import { z } from 'zod'
import { ladderIds } from '#src/domain/direction.ts'
import type { Ladder, WarmUpStep } from '#src/domain/exercise.ts'
import { brandAs, type ExerciseId } from '#src/domain/identifier.ts'
import { idSchema, listOf, sourceSchema, whenWhole } from './scalar-schemas.ts'

const exerciseIdSchema = idSchema.transform((id) => brandAs<ExerciseId>(id))

const warmUpStepSchema = z
  .strictObject({
    exercise: exerciseIdSchema,
    sets: z.int().min(1).max(3),
    reps: z.int().min(1).max(20),
    hold_s: z.int().min(1).max(10).nullable(),
  })
  .transform(({ hold_s, ...step }): WarmUpStep => ({ ...step, holdSeconds: hold_s }))

const rungSchema = z.strictObject({
  rung: z.int().min(1),
  exercises: listOf(exerciseIdSchema).refine((ids) => ids.length > 0, {
    error: 'must name an exercise',
    params: { mend: 'Add one, or remove the rung.' },
    ...whenWhole,
  }),
})

export const ladderSchema: z.ZodType<Ladder> = z
  .strictObject({
    id: z.enum(ladderIds),
    source: sourceSchema,
    muscles: listOf(idSchema).refine((ids) => ids.length > 0, {
      error: 'must name a muscle group',
      params: { mend: 'Name the groups that do the work.' },
      ...whenWhole,
    }),
    warm_up: z.array(warmUpStepSchema).min(1),
    rungs: z.array(rungSchema).min(1),
  })
  .superRefine(({ rungs }, context) => {
    rungs.forEach(({ rung }, index) => {
      if (rung === index + 1) return
      const mend = 'Number the rungs 1, 2, 3 and so on, easiest first.'
      context.addIssue({ code: 'custom', path: ['rungs', index, 'rung'], message: `must be ${index + 1}`, params: { mend } })
    })
  }, whenWhole)
  .transform(({ id, muscles, rungs, warm_up }) => ({ id, muscles, rungs, warmUp: warm_up }))
