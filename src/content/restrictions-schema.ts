import { z } from 'zod'
import { idSchema, sentenceSchema } from './scalar-schemas.ts'

/** The restrictions a plan may name, with what each stands for. */
export const restrictionsSchema: z.ZodType<Record<string, string>> = z.record(idSchema, sentenceSchema)
