/** Worst pain in neck, head or arm, a whole number 0–10. */
export type Pain = number

/** Best first: steady (clean), shaky (wavering), lost (made up for by trunk, shoulders or chin). */
export const controls = ['steady', 'shaky', 'lost'] as const
export type Control = (typeof controls)[number]

/**
 * The three answers after one set. After pain above 5 nothing more is asked, so the other two may be missing.
 * `reserve` is how many more repetitions, just as clean, were left; a hold is a repetition.
 */
export interface SetReport {
  readonly pain: Pain
  readonly control: Control | null
  readonly reserve: number | null
  /** Whether the dose was completed. */
  readonly finished: boolean
}
