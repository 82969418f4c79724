// Decides: the week's pain, from what it is now and was at its best and worst.
// Source: our choice. The mean of the three does not depend on which of them a client calls the best. Reviewed 2026-11.
import type { Pain } from '#src/domain/set-report.ts'

export interface WeekRatings {
  readonly now: Pain
  /** Null where it was not answered. */
  readonly best: Pain | null
  readonly worst: Pain | null
}

/**
 * The mean of what was answered, to one decimal, so that what is compared is what is shown. A week that was left early
 * counts too: it can only hold progress back.
 */
export function weeklyAverage({ now, best, worst }: WeekRatings): number {
  const given = [now, best, worst].filter((pain) => pain !== null)
  return Math.round((given.reduce((sum, pain) => sum + pain, 0) / given.length) * 10) / 10
}

/** Only whole weeks are compared with each other. */
export function isWholeWeek({ best, worst }: WeekRatings): boolean {
  return best !== null && worst !== null
}
