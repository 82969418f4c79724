// Effort and repetitions in reserve: Zourdos 2016, J Strength Cond Res 30:267-275 [found] for 10 = 0, 9 = 1 and so on
// https://www.ncbi.nlm.nih.gov/pubmed/26049792 ; half points and 5-6 [memory:high].

/** The fewest and the most repetitions that an effort leaves in reserve. */
export const reserveAtEffort: readonly { readonly effort: number; readonly fewest: number; readonly most: number }[] = [
  { effort: 10, fewest: 0, most: 0 },
  { effort: 9.5, fewest: 0, most: 0 },
  { effort: 9, fewest: 1, most: 1 },
  { effort: 8.5, fewest: 1, most: 2 },
  { effort: 8, fewest: 2, most: 2 },
  { effort: 7.5, fewest: 2, most: 3 },
  { effort: 7, fewest: 3, most: 3 },
  { effort: 6, fewest: 4, most: 6 },
  { effort: 5, fewest: 4, most: 6 },
]

/** The hardest effort at which at least so many are left for sure. */
export function hardestEffortLeaving(reserve: number): number {
  return Math.max(...reserveAtEffort.filter(({ fewest }) => fewest >= reserve).map(({ effort }) => effort))
}

/** Borg CR10 [found] https://academic.whitworth.edu/hs433/RPE.HTM . Values above 10 are allowed there. */
export const borgCr10: Readonly<Record<number, string>> = {
  0: 'nothing',
  0.5: 'extremely weak',
  1: 'very weak',
  2: 'weak',
  3: 'moderate',
  5: 'strong',
  7: 'very strong',
  10: 'extremely strong',
}

/** Buckley and Borg 2011 [found] https://scribd.com/document/489889949/buckley2011 : 3-6 is about 40-70 % of one repetition's maximum. */
export const cr10OfStrengthWork = { from: 3, to: 6, fractionFrom: 0.4, fractionTo: 0.7 } as const
