// Nerve-root cluster: Wainner 2003, Spine 28(1):52-62, 82 people: upper-limb tension test, compression in side bending,
// distraction, rotation under 60 degrees to the painful side [found]
// https://johnsnyderdpt.com/for-clinicians/clinical-prediction-rules/cervical-radiculopathy/

export interface ClusterRow {
  readonly positive: 2 | 3 | 4
  readonly sensitivity: number
  readonly specificity: number
  readonly likelihoodRatio: number
  readonly postTest: number
}

export const cluster: readonly ClusterRow[] = [
  { positive: 2, sensitivity: 0.39, specificity: 0.56, likelihoodRatio: 0.88, postTest: 0.21 },
  { positive: 3, sensitivity: 0.39, specificity: 0.94, likelihoodRatio: 6.1, postTest: 0.65 },
  { positive: 4, sensitivity: 0.24, specificity: 0.99, likelihoodRatio: 30.3, postTest: 0.9 },
]

/** The probability before the tests that a likelihood ratio turns into the one after them (Bayes, in odds). */
export function impliedPreTest({ likelihoodRatio, postTest }: ClusterRow): number {
  const odds = postTest / (1 - postTest) / likelihoodRatio
  return odds / (1 + odds)
}
