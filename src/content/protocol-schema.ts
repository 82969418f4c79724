// The hard bounds of every threshold: a therapist may be stricter or looser inside them, nobody may leave them.
// They are our choice, for a clinician to review. Reviewed 2026-11.
import { z } from 'zod'
import type { Protocol } from '#src/domain/protocol.ts'
import { camelCaseKeys } from './camel-case-keys.ts'
import { idSchema, sourced, whenWhole } from './scalar-schemas.ts'

function whole(least: number, most: number): z.ZodType<number> {
  return sourced(z.int().min(least).max(most))
}

function amount(least: number, most: number): z.ZodType<number> {
  return sourced(z.number().min(least).max(most))
}

const fileSchema = z.strictObject({
  id: idSchema,
  pain: z.strictObject({
    comfortable_up_to: whole(0, 3),
    // The texts of the exercises say "above 5 out of 10, or above the lower limit your therapist set".
    amber_up_to: whole(2, 5),
    ends_session_above: whole(4, 8),
    urgent_from: whole(6, 9),
    urgent_above_usual_by: whole(1, 3),
    no_progress_from_usual: whole(3, 6),
  }),
  reserve: z.strictObject({ for_progress: whole(1, 4), on_entry_unmeasured: whole(2, 6) }),
  morning: z.strictObject({ bad_above_usual_by: whole(1, 3) }),
  weekly: z.strictObject({ no_progress_above_usual_by: amount(1, 3) }),
  running: z.strictObject({ amber: whole(2, 5), red: whole(1, 3), bad_mornings: whole(1, 3), lowest_dose: whole(1, 3) }),
  ease: z.strictObject({ at_least: amount(0.05, 0.3) }),
  load_step: z.strictObject({
    largest: amount(0.02, 0.15),
    far_above: amount(0.1, 0.35),
    approval_above: amount(0.2, 0.75),
    beyond_places: whole(1, 2),
    far_beyond_places: whole(1, 3),
    first_plate_kg: amount(0.1, 0.5),
  }),
  maximum: z.strictObject({ band_entry: amount(0.05, 0.2), band_leave: amount(0.1, 0.3), ceiling: amount(0.2, 0.75) }),
  band: z.strictObject({ steps_above_entry: whole(1, 6) }),
  harness: z.strictObject({ entry_up_to_kg: amount(0.1, 1), ceiling_kg: amount(1, 15) }),
  loaded_rung: z.strictObject({ sessions: whole(3, 30), days: whole(7, 90) }),
  absence: z.strictObject({
    withdraw_after_days: whole(3, 10),
    ease_after_days: whole(7, 21),
    reenter_after_days: whole(14, 42),
  }),
  supervision: z.strictObject({ no_progress_after_days: whole(7, 42), no_session_after_days: whole(14, 56) }),
  approval: z.strictObject({ lapses_after_days: whole(3, 28) }),
  lock: z.strictObject({ sessions_without_progress: whole(1, 6) }),
  silence: z.strictObject({ ask_after_minutes: whole(2, 10), pause_after_minutes: whole(4, 20) }),
})

type Thresholds = z.output<typeof fileSchema>

type Read = (thresholds: Thresholds) => number

/** Thresholds that only make sense in this order, the lower one first; the path is of the higher. */
const orders: readonly (readonly [path: readonly [string, string], lower: Read, higher: Read])[] = [
  [['pain', 'amber_up_to'], (t) => t.pain.comfortable_up_to, (t) => t.pain.amber_up_to],
  [['pain', 'ends_session_above'], (t) => t.pain.amber_up_to, (t) => t.pain.ends_session_above],
  [['pain', 'urgent_from'], (t) => t.pain.amber_up_to, (t) => t.pain.urgent_from],
  [['load_step', 'far_above'], (t) => t.load_step.largest, (t) => t.load_step.far_above],
  [['load_step', 'approval_above'], (t) => t.load_step.far_above, (t) => t.load_step.approval_above],
  [['load_step', 'far_beyond_places'], (t) => t.load_step.beyond_places, (t) => t.load_step.far_beyond_places],
  [['maximum', 'band_leave'], (t) => t.maximum.band_entry, (t) => t.maximum.band_leave],
  [['maximum', 'ceiling'], (t) => t.maximum.band_leave, (t) => t.maximum.ceiling],
  [['absence', 'ease_after_days'], (t) => t.absence.withdraw_after_days, (t) => t.absence.ease_after_days],
  [['absence', 'reenter_after_days'], (t) => t.absence.ease_after_days, (t) => t.absence.reenter_after_days],
  [
    ['supervision', 'no_session_after_days'],
    (t) => t.supervision.no_progress_after_days,
    (t) => t.supervision.no_session_after_days,
  ],
  [['silence', 'pause_after_minutes'], (t) => t.silence.ask_after_minutes, (t) => t.silence.pause_after_minutes],
]

export const protocolSchema: z.ZodType<Protocol> = fileSchema
  .superRefine((thresholds, context) => {
    for (const [path, lower, higher] of orders) {
      if (lower(thresholds) < higher(thresholds)) continue
      const message = `must be above ${lower(thresholds)}, the threshold before it`
      context.addIssue({ code: 'custom', path: [...path], message, params: { mend: 'Raise it, or lower the one before.' } })
    }
  }, whenWhole)
  .transform((thresholds) => camelCaseKeys(thresholds))
