import { z } from 'zod'
import { brandAs, type SignId } from '#src/domain/identifier.ts'
import { alertLevels, type EscalationTimes, type Gates, type IllnessRule, type RoutineTimes, type ScreenTimes, type Sign, type Triage } from '#src/domain/triage.ts'
import { faultsOfTriage } from './check-triage.ts'
import { idSchema, listOf, sentenceSchema, sourced, sourceSchema, whenWhole } from './scalar-schemas.ts'

const signSchema = z
  .strictObject({ id: idSchema, level: z.enum(alertLevels), group: idSchema, source: sourceSchema })
  .transform(({ id, level, group }): Sign => ({ id: brandAs<SignId>(id), level, group }))

function minutes(most: number): z.ZodType<number> {
  return sourced(z.int().min(1).max(most))
}

function byLevel(mostEmergency: number, mostUrgent: number) {
  return z.strictObject({ emergency: minutes(mostEmergency), urgent: minutes(mostUrgent) })
}

// The hard bounds are our choice: an emergency waits for nobody longer than half an hour, an urgent sign not a day.
const escalationSchema = z
  .strictObject({
    resend_after_min: byLevel(30, 240),
    every_afterwards_min: minutes(60),
    contact_within_min: byLevel(120, 480),
    ask_called_after_min: sourced(z.array(z.int().min(1).max(60)).min(1)),
    unsure_ask_again_after_min: minutes(10),
    unsure_alert_after_min: byLevel(15, 60),
  })
  .transform((times): EscalationTimes => ({
    resendAfter: times.resend_after_min,
    everyAfterwards: times.every_afterwards_min,
    contactWithin: times.contact_within_min,
    askCalledAfter: times.ask_called_after_min,
    unsureAskAgainAfter: times.unsure_ask_again_after_min,
    unsureAlertAfter: times.unsure_alert_after_min,
  }))

const illnessSchema = z
  .strictObject({ signs: sourced(listOf(idSchema)), together_within_days: sourced(z.int().min(7).max(90)), urgent_alone_with: sourced(listOf(idSchema)) })
  .transform((illness): IllnessRule => ({
    signs: illness.signs,
    togetherWithinDays: illness.together_within_days,
    urgentAloneWith: illness.urgent_alone_with,
  }))

// Hard bounds of ours: no rarer than triage asks for, and not so often that nobody reads it.
const screenSchema = z
  .strictObject({ full_every_days: sourced(z.int().min(1).max(28)), full_after_days_off: sourced(z.int().min(1).max(14)) })
  .transform((screen): ScreenTimes => ({ fullEveryDays: screen.full_every_days, fullAfterDaysOff: screen.full_after_days_off }))

const routineSchema = z
  .strictObject({ soreness_past_days: sourced(z.int().min(2).max(7)), no_step_up_days: sourced(z.int().min(14).max(42)) })
  .transform((times): RoutineTimes => ({ sorenessPastDays: times.soreness_past_days, noStepUpDays: times.no_step_up_days }))

function pressure(mostSystolic: number, mostDiastolic: number) {
  return sourced(
    z.strictObject({ systolic: z.int().min(120).max(mostSystolic), diastolic: z.int().min(80).max(mostDiastolic) }),
  )
}

const conditionsSchema = sourced(listOf(idSchema))

const gatesSchema = z
  .strictObject({
    minimum_age_years: sourced(z.int().min(16).max(30)),
    guardian_below_age_years: sourced(z.int().min(16).max(30)),
    limited_from_age_years: sourced(z.int().min(40).max(80)),
    refused_blood_pressure_mmhg: pressure(180, 110),
    limited_blood_pressure_mmhg: pressure(160, 100),
    refusing: conditionsSchema,
    refusing_without_clearance: conditionsSchema,
    limiting: conditionsSchema,
    no_bridge: conditionsSchema,
    noted: conditionsSchema,
  })
  .transform((gates): Gates => ({
    minimumAge: gates.minimum_age_years,
    guardianBelowAge: gates.guardian_below_age_years,
    limitedFromAge: gates.limited_from_age_years,
    refusedBloodPressure: gates.refused_blood_pressure_mmhg,
    limitedBloodPressure: gates.limited_blood_pressure_mmhg,
    refusing: gates.refusing,
    refusingWithoutClearance: gates.refusing_without_clearance,
    limiting: gates.limiting,
    noBridge: gates.no_bridge,
    noted: gates.noted,
  }))

export const triageSchema: z.ZodType<Triage> = z
  .strictObject({
    version: z.string().trim().min(1),
    note: sentenceSchema,
    groups: listOf(idSchema),
    groups_only_with: z.record(idSchema, listOf(idSchema)),
    signs: z.array(signSchema).min(1),
    never_known: sourced(listOf(idSchema)),
    illness: illnessSchema,
    screen: screenSchema,
    routine: routineSchema,
    escalation: escalationSchema,
    gates: gatesSchema,
  })
  .superRefine((triage, context) => {
    for (const { path, message, mend } of faultsOfTriage(triage)) context.addIssue({ code: 'custom', path: [...path], message, params: { mend } })
  }, whenWhole)
  .transform(({ note: _, groups_only_with: groupsOnlyWith, never_known: neverKnown, ...triage }) => ({ ...triage, groupsOnlyWith, neverKnown }))
