// NEXUS low-risk criteria: Hoffman 2000, N Engl J Med 343:94-99 [found]
// https://www.wikem.org/w/index.php?direction=next&oldid=5624&title=NEXUS_cervical_spine_rule . For an examiner, as above.

export const criteria = [
  'no midline tenderness',
  'no focal deficit',
  'normal alertness',
  'no intoxication',
  'no distracting injury',
] as const
export type Criterion = (typeof criteria)[number]

/** No imaging only if all five are met. */
export function needsImaging(met: ReadonlySet<Criterion>): boolean {
  return criteria.some((criterion) => !met.has(criterion))
}
