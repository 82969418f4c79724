// The hard bounds of every threshold: a therapist may be stricter or looser inside them, nobody may leave them.
// They are our choice, for a clinician to review. Reviewed 2026-11.
import { z } from 'zod'

function whole(least: number, most: number): z.ZodType<number> {
  return z.int().min(least).max(most)
}

function amount(least: number, most: number): z.ZodType<number> {
  return z.number().min(least).max(most)
}

function counts(least: number, most: number): z.ZodType<number[]> {
  return z.array(whole(1, 30)).min(least).max(most)
}

// Three quarters is the most that the trade works at, and then in extension only (common practice, no source).
const working = { warm_up: amount(0.05, 0.3), target: amount(0.1, 0.75) }

export const thresholdBounds = {
  pain: {
    comfortable_up_to: whole(0, 3),
    // The texts of the exercises say "above 5 out of 10, or above the lower limit your therapist set".
    amber_up_to: whole(2, 5),
    ends_session_above: whole(4, 8),
    urgent_from: whole(6, 9),
    urgent_above_usual_by: whole(1, 3),
    no_progress_from_usual: whole(3, 6),
  },
  sets: {
    extension: whole(1, 4),
    flexion: whole(1, 4),
    'lateral-flexion': whole(1, 4),
    rotation: whole(1, 4),
    'deep-flexors': whole(1, 4),
  },
  repetitions: { below: counts(1, 3), range: counts(2, 8), beyond: counts(2, 3) },
  progress: { is_automatic: z.boolean() },
  reserve: { for_progress: whole(1, 4), on_entry_unmeasured: whole(2, 6) },
  morning: { bad_above_usual_by: whole(1, 3) },
  weekly: { no_progress_above_usual_by: amount(1, 3) },
  running: { amber: whole(2, 5), red: whole(1, 3), bad_mornings: whole(1, 3), lowest_dose: whole(1, 3) },
  ease: { at_least: amount(0.05, 0.3) },
  load_step: {
    largest: amount(0.02, 0.15),
    far_above: amount(0.1, 0.35),
    approval_above: amount(0.2, 0.75),
    beyond_places: whole(1, 2),
    far_beyond_places: whole(1, 3),
    first_plate_kg: amount(0.1, 0.5),
  },
  working: { extension: working, flexion: working, 'lateral-flexion': working, rotation: working, 'deep-flexors': working },
  maximum: { band_entry: amount(0.05, 0.2), band_leave: amount(0.1, 0.3), start: amount(0.05, 0.3), ceiling: amount(0.2, 0.75) },
  band: { steps_above_entry: whole(1, 6) },
  harness: { entry_up_to_kg: amount(0.1, 1), ceiling_kg: amount(1, 15) },
  loaded_rung: { sessions: whole(3, 30), days: whole(7, 90) },
  session: { most_directions: whole(2, 4), most_sets: whole(4, 12) },
  retest: { every_days: whole(14, 84) },
  absence: { withdraw_after_days: whole(3, 10), ease_after_days: whole(7, 21), reenter_after_days: whole(14, 42) },
  supervision: { no_progress_after_days: whole(7, 42), no_session_after_days: whole(14, 56) },
  approval: { lapses_after_days: whole(3, 28) },
  lock: { sessions_without_progress: whole(1, 6) },
  silence: { ask_after_minutes: whole(2, 10), pause_after_minutes: whole(4, 20) },
}
