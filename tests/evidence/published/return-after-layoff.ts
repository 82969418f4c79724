// Return after time off: CSCCa and NSCA 2019, Strength Cond J 41(3):1-23: for two weeks or longer [found]
// https://training-conditioning.com/news/nsca-and-cscca-announce-return-to-safe-training-guidelines/ ; the cuts
// [memory:medium]. For college athletes and conditioning, not for necks.

export const countsFromDays = 14

/** The least share by which the volume is cut in each week back; no cut afterwards. */
export const cuts = [0.5, 0.3] as const

/** Whole sets in a week back, rounded down [convention]. */
export function setsInWeekBack(usualSets: number, week: number): number {
  return Math.floor(usualSets * (1 - (cuts[week - 1] ?? 0)))
}
