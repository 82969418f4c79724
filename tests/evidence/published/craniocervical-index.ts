// Cranio-cervical flexion test: Jull 2008, J Manipulative Physiol Ther 31:525-533. Baseline 20 mmHg, five stages of 2 mmHg,
// each held 10 s [found] https://pmc.ncbi.nlm.nih.gov/articles/PMC8119582/figure/Fig3 ; both maxima [found]
// https://search.pedro.org.au/search-results/record-detail/34227 ; the formula is the one that yields them [calc].

const baselineMmHg = 20
export const stagesMmHg = [22, 24, 26, 28, 30] as const
export const mostHolds = 10

/** Good holds of ten seconds at each stage, lowest stage first, ten of each counted at most. */
export function cumulativeIndex(goodHolds: readonly number[]): number {
  return stagesMmHg.reduce((sum, stage, index) => sum + (stage - baselineMmHg) * Math.min(mostHolds, goodHolds[index] ?? 0), 0)
}

/** The highest rise above the baseline held at least once. */
export function activationScore(goodHolds: readonly number[]): number {
  return Math.max(0, ...stagesMmHg.map((stage, index) => ((goodHolds[index] ?? 0) > 0 ? stage - baselineMmHg : 0)))
}

/** The other published index, of the highest stage alone [memory:medium]: which of the two is meant must be said. */
export function highestStageIndex(goodHolds: readonly number[]): number {
  const highest = goodHolds.findLastIndex((holds) => holds > 0)
  return activationScore(goodHolds) * Math.min(mostHolds, goodHolds[highest] ?? 0)
}
