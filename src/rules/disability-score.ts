// Decides: the 0-50 disability score of ten item scores, some of which may be missing.
// Source: Vernon H, Mior S 1991 for ten items of 0-5 and the bands, which are on the raw score and were never validated;
// Vernon 2008, from memory, for at most two gaps; bands of prorated scores are our choice. The items' wording belongs to
// its owner and stands nowhere here. Reviewed 2026-11.

export const itemCount = 10
export const mostItemScore = 5
const mostGaps = 2

export const disabilityBands = ['none', 'mild', 'moderate', 'severe', 'complete'] as const
export type DisabilityBand = (typeof disabilityBands)[number]

/** A raw score below the limit is in the band; what is below none of them is complete. */
const bandLimits: readonly (readonly [DisabilityBand, below: number])[] = [['none', 5], ['mild', 15], ['moderate', 25], ['severe', 35]]

/** In the order of the form; null where an item was not answered. */
export type ItemScores = readonly (number | null)[]

export type DisabilityScore =
  | { readonly kind: 'scored'; readonly raw: number; readonly percent: number; readonly band: DisabilityBand; readonly answered: number }
  | { readonly kind: 'too-many-gaps'; readonly answered: number }

export function scoreDisability(items: ItemScores): DisabilityScore {
  if (items.length !== itemCount || !items.every(isItemScore)) throw new RangeError('not ten item scores of 0 to 5')
  const scores = items.filter((score) => score !== null)
  const answered = scores.length
  if (itemCount - answered > mostGaps) return { kind: 'too-many-gaps', answered }
  const sum = scores.reduce((total, score) => total + score, 0)
  // The mean of the answered items stands in for each gap, which is the same as a percentage of what was answered.
  const raw = (sum * itemCount) / answered
  return { kind: 'scored', raw, percent: raw * 2, band: bandOf(raw), answered }
}

export function bandOf(raw: number): DisabilityBand {
  return bandLimits.find(([, below]) => raw < below)?.[0] ?? 'complete'
}

export function isItemScore(score: number | null): boolean {
  return score === null || (Number.isInteger(score) && score >= 0 && score <= mostItemScore)
}
