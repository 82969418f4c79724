import { z } from 'zod'
import { directions } from '#src/domain/direction.ts'
import { brandAs, type ExerciseId, type LocalDate } from '#src/domain/identifier.ts'
import {
  mostKnownSigns,
  weekdays,
  type Band,
  type Equipment,
  type KnownSign,
  type LadderPlan,
  type Measurement,
  type Plan,
  type Schedule,
  type Screening,
} from '#src/domain/plan.ts'
import { forceUnits, toNewtons } from '#src/domain/units.ts'
import { ownAssumptionsSchema } from './assumptions-schema.ts'
import { idSchema, listOf, sentenceSchema, textLike, whenWhole } from './scalar-schemas.ts'
import { overridesSchema } from './threshold-schemas.ts'

const nameSchema = z.string().trim().min(1).max(80)
const wallTimeSchema = textLike(
  /^([01]\d|2[0-3]):[0-5]\d$/,
  'must be a time of day',
  'Write it as "HH:MM" in 24 hours, in quotes, e.g. "18:00".',
)
const phoneSchema = textLike(
  /^\+?[0-9][0-9 ()*#-]{1,23}$/,
  'must be a telephone number',
  'Write digits in quotes, e.g. "112"; blanks, hyphens and a leading + may stand in it.',
)
const painSchema = z.int().min(0).max(10)

const scheduleSchema: z.ZodType<Schedule> = z.strictObject({
  days: listOf(z.enum(weekdays)).refine((days) => days.length > 0, {
    error: 'must name a day',
    params: { mend: `Name at least one of: ${weekdays.join(', ')}.` },
    ...whenWhole,
  }),
  time: wallTimeSchema,
  quiet: z.strictObject({ from: wallTimeSchema, to: wallTimeSchema }),
})

const pointSchema = z
  .strictObject({ stretch_cm: z.number().min(0).max(300), force_n: z.number().min(0.5).max(200) })
  .transform((point) => ({ stretchCm: point.stretch_cm, forceN: point.force_n }))

const pointsSchema: z.ZodType<Band['points']> = z
  .tuple([pointSchema, pointSchema])
  .refine(([near, far]) => near.stretchCm < far.stretchCm && near.forceN < far.forceN, {
    error: 'must rise in stretch and in force',
    params: { mend: 'Put the shorter stretch first; the force measured at the longer one must be higher.' },
    ...whenWhole,
  })
  .refine(([near, far]) => Math.ceil(near.stretchCm) <= far.stretchCm, {
    error: 'has no whole centimetre between the two stretches',
    params: { mend: 'Stretch is set in whole centimetres, and a band is not used outside what was measured: measure further apart.' },
    ...whenWhole,
  })

const bandSchema: z.ZodType<Band> = z.strictObject({ id: idSchema, points: pointsSchema })

const equipmentSchema: z.ZodType<Equipment> = z
  .strictObject({
    plates_kg: z.array(z.number().min(0.1).max(20)).max(40).default([]),
    harness_kg: z.number().min(0.05).max(2).nullable().default(null),
    collars_kg: z.number().min(0.01).max(1).optional(),
    bands: z.array(bandSchema).max(20).default([]),
    support: z.boolean().default(false),
    step_cm: z.number().min(5).max(60).nullable().default(null),
  })
  .transform(({ plates_kg, harness_kg, collars_kg, bands, support, step_cm }) => ({
    platesKg: plates_kg,
    harnessKg: harness_kg,
    ...(collars_kg === undefined ? {} : { collarsKg: collars_kg }),
    bands,
    hasSupport: support,
    stepCm: step_cm,
  }))

const bloodPressureSchema = z
  .strictObject({ systolic: z.int().min(60).max(260), diastolic: z.int().min(30).max(160) })
  .refine(({ systolic, diastolic }) => systolic > diastolic, {
    error: 'must have the systolic value above the diastolic one',
    params: { mend: 'Swap the two, or measure again.' },
    ...whenWhole,
  })

const screeningSchema: z.ZodType<Screening> = z
  .strictObject({
    age: z.int().min(1).max(120),
    blood_pressure: bloodPressureSchema.nullable(),
    conditions: listOf(idSchema),
    surgeon_clearance: z.boolean().default(false),
    guardian_consent: z.boolean().default(false),
    override_reason: sentenceSchema.nullable().default(null),
  })
  .transform((screening) => ({
    age: screening.age,
    bloodPressure: screening.blood_pressure,
    conditions: screening.conditions,
    hasSurgeonClearance: screening.surgeon_clearance,
    hasGuardianConsent: screening.guardian_consent,
    overrideReason: screening.override_reason,
  }))

const knownSignSchema: z.ZodType<KnownSign> = z.strictObject({
  sign: idSchema,
  words: sentenceSchema,
  side: z.enum(['left', 'right', 'both']).nullable().default(null),
  area: sentenceSchema,
  worst: painSchema,
})

const ladderPlanSchema: z.ZodType<LadderPlan> = z
  .strictObject({
    direction: z.enum(directions),
    rung: z.int().min(1),
    max_rung: z.int().min(1),
    shown: listOf(idSchema.transform((id) => brandAs<ExerciseId>(id))),
    // As far as any protocol's own ceiling may go.
    target_kg: z.number().min(0.1).max(15).optional(),
  })
  .transform(({ max_rung, target_kg, ...ladder }) => ({
    ...ladder,
    maxRung: max_rung,
    ...(target_kg === undefined ? {} : { targetKg: target_kg }),
  }))

/** What a hand-held dynamometer can have shown, in newtons. */
const leastForceN = 1
const mostForceN = 1500

const measurementSchema: z.ZodType<Measurement> = z
  .strictObject({
    direction: z.enum(directions),
    force: z.number(),
    trials: z.array(z.number().positive()).min(1).max(10).optional(),
    unit: z.enum(forceUnits),
    lever_cm: z.number().min(1).max(40).nullable().default(null),
    on: z.iso
      .date({ error: 'must be a calendar day such as 2026-03-31' })
      .transform((day) => brandAs<LocalDate>(day))
      .nullable()
      .default(null),
    confirmed: z.boolean().optional(),
  })
  .superRefine(({ force, unit }, context) => {
    const newtons = toNewtons(force, unit)
    if (newtons >= leastForceN && newtons <= mostForceN) return
    const message = `must lie between ${leastForceN} and ${mostForceN} N`
    context.addIssue({ code: 'custom', path: ['force'], message, params: { mend: 'Check the number and its unit.' } })
  }, whenWhole)
  .superRefine(({ force, trials }, context) => {
    const best = Math.max(...(trials ?? [force]))
    if (best === force) return
    context.addIssue({ code: 'custom', path: ['force'], message: 'is not the best trial', params: { mend: `Write ${best}, or correct the trials.` } })
  }, whenWhole)
  .transform(({ lever_cm, trials, confirmed, ...measurement }) => ({
    ...measurement,
    ...(trials === undefined ? {} : { trials }),
    ...(confirmed === undefined ? {} : { isConfirmed: confirmed }),
    leverCm: lever_cm,
  }))

const contactSchema = z.strictObject({ name: nameSchema })

/** A plan as a therapist writes it, by itself; what it refers to is checked against the content afterwards. */
export const planSchema: z.ZodType<Plan> = z
  .strictObject({
    client: z.strictObject({ name: nameSchema, language: z.string().min(1) }),
    zone: z.string(),
    emergency_number: phoneSchema,
    out_of_hours_number: phoneSchema,
    protocol: idSchema,
    thresholds: overridesSchema.optional(),
    usual_pain: painSchema.default(0),
    schedule: scheduleSchema,
    equipment: equipmentSchema,
    screening: screeningSchema,
    known_signs: z.array(knownSignSchema).max(mostKnownSigns).default([]),
    restrictions: listOf(idSchema).default([]),
    contraindications: listOf(idSchema).default([]),
    ladders: z.array(ladderPlanSchema).min(1),
    measurements: z.array(measurementSchema).default([]),
    assumptions: ownAssumptionsSchema.optional(),
    contacts: z.strictObject({ therapist: contactSchema, second: contactSchema.nullable().default(null) }),
  })
  .transform(({ emergency_number, out_of_hours_number, usual_pain, known_signs, ...plan }) => ({
    ...plan,
    emergencyNumber: emergency_number,
    outOfHoursNumber: out_of_hours_number,
    usualPain: usual_pain,
    knownSigns: known_signs,
  }))
