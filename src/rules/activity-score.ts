// Decides: how well a client can do the activities that they named, and the change of those that were scored twice.
// Source: Stratford P 1995, Physiother Can 47:258-263: up to three activities, 0 unable to 10 as before, mean of the
// scores; only the same activities may be compared. Reviewed 2026-11.

export const mostActivities = 3

/** By the place of the activity; null where it was not scored. */
export type ActivityScores = readonly (number | null)[]

export interface ActivityChange {
  /** Means over the activities that were scored both times. */
  readonly first: number
  readonly last: number
  readonly compared: number
}

/** Null where no activity was scored both times: one that is new, or was left out, is no change. */
export function compareActivities(first: ActivityScores, last: ActivityScores): ActivityChange | null {
  const pairs = first.flatMap((before, place) => {
    const after = last[place]
    return before === null || after === null || after === undefined ? [] : [{ before, after }]
  })
  if (pairs.length === 0) return null
  return { first: meanOf(pairs.map(({ before }) => before)), last: meanOf(pairs.map(({ after }) => after)), compared: pairs.length }
}

function meanOf(scores: readonly number[]): number {
  return scores.reduce((sum, score) => sum + score, 0) / scores.length
}
