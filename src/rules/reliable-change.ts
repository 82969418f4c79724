// Decides: whether a change is more than the error of its measurement.
// Source: Jacobson NS, Truax P 1991, J Consult Clin Psychol 59:12-19: SEM = SD sqrt(1 - r), Sdiff = SEM sqrt(2),
// RC = change / Sdiff, reliable when |RC| > 1.96; MDC = z Sdiff. Reviewed 2026-11.

/** Two-sided points of the normal distribution, as the sources print them. */
const zOf = { 90: 1.645, 95: 1.96 } as const
export type ConfidencePercent = keyof typeof zOf

/** SEM, from the spread among people and the reliability of the measure (0 to 1). */
export function standardErrorOf(standardDeviation: number, reliability: number): number {
  const isPossible = standardDeviation >= 0 && reliability >= 0 && reliability <= 1
  if (!isPossible) throw new RangeError('a standard deviation below 0, or a reliability outside 0 to 1')
  return standardDeviation * Math.sqrt(1 - reliability)
}

/** Sdiff. Both measurements have their error, hence the root of two: leaving it out makes a change look real too early. */
export function differenceErrorOf(standardError: number): number {
  return standardError * Math.SQRT2
}

export function detectableChange(standardError: number, confidence: ConfidencePercent): number {
  return zOf[confidence] * differenceErrorOf(standardError)
}

export interface ReliableChange {
  /** RC; null where the measure is without error, for which it would be a division by zero. */
  readonly index: number | null
  readonly isReliable: boolean
}

export function reliableChange(change: number, standardError: number): ReliableChange {
  // Without error any change is one.
  if (standardError === 0) return { index: null, isReliable: change !== 0 }
  const index = change / differenceErrorOf(standardError)
  return { index, isReliable: Math.abs(index) > zOf[95] }
}
