// The hard bounds of every assumption, in the shipped file and in a plan. They are our choice, for a clinician to review.
// Reviewed 2026-11.
import { z } from 'zod'
import { sexes, type OwnAssumptions, type ShippedAssumptions } from '#src/domain/assumptions.ts'
import { camelCaseKeys } from './camel-case-keys.ts'
import { sourceSchema } from './scalar-schemas.ts'

const bounds = {
  body_kg: z.number().min(25).max(250),
  head_share: z.number().min(0.05).max(0.1),
  head_lever_cm: z.number().min(6).max(20),
  tester_lever_cm: z.number().min(8).max(30),
  band_lever_cm: z.number().min(8).max(30),
  harness_lever_cm: z.number().min(8).max(30),
}

/** A value that keeps its source, so that a therapist can be shown both. */
function stated(value: z.ZodType<number>): z.ZodType<{ value: number; source: string }> {
  return z.strictObject({ value, source: sourceSchema })
}

const headShare = stated(bounds.head_share)

/** `content/assumptions.yaml`. */
export const assumptionsSchema: z.ZodType<ShippedAssumptions> = z
  .strictObject({
    body_kg: stated(bounds.body_kg),
    head_share: z.strictObject({ female: headShare, male: headShare, unknown: headShare }),
    head_lever_cm: stated(bounds.head_lever_cm),
    tester_lever_cm: stated(bounds.tester_lever_cm),
    band_lever_cm: stated(bounds.band_lever_cm),
    harness_lever_cm: stated(bounds.harness_lever_cm),
  })
  .transform((file) => camelCaseKeys(file))

/** `assumptions` in a plan. */
export const ownAssumptionsSchema: z.ZodType<OwnAssumptions> = z
  .strictObject({ ...bounds, sex: z.enum(sexes) })
  .partial()
  .transform((own) => camelCaseKeys(own))
