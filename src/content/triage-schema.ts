import { z } from 'zod'
import { brandAs, type SignId } from '#src/domain/identifier.ts'
import { alertLevels, type EscalationTimes, type Gates, type Sign, type Triage } from '#src/domain/triage.ts'
import { idSchema, listOf, sentenceSchema, sourced, sourceSchema, whenWhole } from './scalar-schemas.ts'

/** The group of the signs that the screen never asks. */
export const unasked = 'none'

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
  }))

export const triageSchema: z.ZodType<Triage> = z
  .strictObject({
    version: z.string().trim().min(1),
    note: sentenceSchema,
    groups: listOf(idSchema),
    signs: z.array(signSchema).min(1),
    escalation: escalationSchema,
    gates: gatesSchema,
  })
  .superRefine(({ groups, signs }, context) => {
    const refuse = (index: number, key: string, message: string, mend: string): void =>
      context.addIssue({ code: 'custom', path: ['signs', index, key], message, params: { mend } })
    signs.forEach((sign, index) => {
      const known = [...groups, unasked]
      if (!known.includes(sign.group)) refuse(index, 'group', 'is no group of this file', `Use one of: ${known.join(', ')}.`)
      const isTwice = signs.findIndex((other) => other.id === sign.id) < index
      if (isTwice) refuse(index, 'id', 'stands twice', 'Remove one of the two.')
    })
  }, whenWhole)
  .transform(({ version, groups, signs, escalation, gates }) => ({ version, groups, signs, escalation, gates }))
