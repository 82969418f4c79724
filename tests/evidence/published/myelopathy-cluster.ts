// Cord cluster: Cook 2010, J Man Manip Ther 18(4):175-180, 249 people: three of five rule in, one or none rule out [found]
// https://www.ncbi.nlm.nih.gov/pubmed/22131790

export interface Findings {
  readonly age: number
  readonly hasGaitDeviation: boolean
  /** Null where nobody tested it: four of the five need an examiner's hands. */
  readonly hoffmann: boolean | null
  readonly invertedSupinator: boolean | null
  readonly babinski: boolean | null
}

export type Verdict = 'ruled in' | 'undetermined' | 'ruled out'

export function judge({ age, ...tests }: Findings): Verdict {
  const items = [age > 45, ...Object.values(tests)]
  const positive = items.filter((item) => item === true).length
  const unknown = items.filter((item) => item === null).length
  if (positive >= 3) return 'ruled in'
  return positive + unknown <= 1 ? 'ruled out' : 'undetermined'
}
