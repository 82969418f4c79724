// What a chart keeps of its client's outcome measures: the first of each and the last few. The record holds them all.
import type { Instant } from '#src/domain/identifier.ts'
import type { Pain } from '#src/domain/set-report.ts'
import { compareActivities, mostActivities, type ActivityChange } from '#src/rules/activity-score.ts'
import type { ItemScores } from '#src/rules/disability-score.ts'
import { isWholeWeek, weeklyAverage } from '#src/rules/weekly-average.ts'

/** Measured on one occasion; `at` names the occasion. */
interface Measured {
  readonly at: Instant
}

export interface WeekOfPain extends Measured {
  readonly now: Pain
  readonly best: Pain | null
  readonly worst: Pain | null
}

/** Something the client wants to do as well as before, in their own words. */
export interface OwnActivity {
  readonly name: string
  readonly namedAt: Instant
  readonly first: (Measured & { readonly score: number }) | null
}

/** The scores of one occasion by the place of the activity, as far as they were asked; null where one was skipped. */
export interface ActivityRound extends Measured {
  readonly scores: readonly (number | null)[]
}

export const turns = ['better', 'same', 'worse'] as const
export type Turn = (typeof turns)[number]

export interface GlobalRating extends Measured {
  readonly turn: Turn
  /** 1–7; null where it was not said, and where nothing has changed. */
  readonly amount: number | null
}

export interface DisabilityRecord extends Measured {
  readonly items: ItemScores
}

export interface Outcomes {
  readonly weeks: readonly WeekOfPain[]
  readonly activities: readonly OwnActivity[]
  readonly rounds: readonly ActivityRound[]
  readonly activitiesAskedAt: Instant | null
  readonly changes: readonly GlobalRating[]
  readonly changeAskedAt: Instant | null
  readonly disability: readonly DisabilityRecord[]
}

export const noOutcomes: Outcomes = { weeks: [], activities: [], rounds: [], activitiesAskedAt: null, changes: [], changeAskedAt: null, disability: [] }

/** The first, and as many of the last. */
const lastKept = 4

/** Adds one, or replaces the last where it is of the same occasion. */
export function keep<T extends Measured>(kept: readonly T[], one: T): readonly T[] {
  const before = kept.at(-1)?.at === one.at ? kept.slice(0, -1) : kept
  return before.length <= lastKept ? [...before, one] : [...before.slice(0, 1), ...before.slice(1 - lastKept), one]
}

/** A week that was left early is no beginning to compare with, once there are others. */
export function addWeek(weeks: readonly WeekOfPain[], week: WeekOfPain): readonly WeekOfPain[] {
  const [first, ...others] = weeks
  const isOfNoUse = first !== undefined && others.length > 0 && ofOccasion(weeks, week.at) === null && !isWholeWeek(first)
  return keep(isOfNoUse ? others : weeks, week)
}

/** The occasion's own, where it has begun. */
export function ofOccasion<T extends Measured>(kept: readonly T[], at: Instant): T | null {
  const last = kept.at(-1)
  return last?.at === at ? last : null
}

/** The average of the last week asked about, if it is not older than this; null else. */
export function averageSince({ weeks }: Outcomes, since: Instant): number | null {
  const last = weeks.at(-1)
  return last !== undefined && last.at > since ? weeklyAverage(last) : null
}

export function scoresOf({ rounds }: Outcomes, at: Instant): readonly (number | null)[] {
  return ofOccasion(rounds, at)?.scores ?? []
}

/** Activities are named on one occasion only: new ones later would change the mean without any change. */
export function mayNameAnother({ activities }: Outcomes, at: Instant): boolean {
  return activities.length < mostActivities && activities.every((activity) => activity.namedAt === at)
}

/** The next activity's score; the first that it ever gets is what later ones are compared with. */
export function addScore(outcomes: Outcomes, at: Instant, score: number | null): Outcomes {
  const scores = [...scoresOf(outcomes, at), score]
  const activities = outcomes.activities.map((activity, place) =>
    place === scores.length - 1 && activity.first === null && score !== null ? { ...activity, first: { at, score } } : activity,
  )
  return { ...outcomes, activities, rounds: keep(outcomes.rounds, { at, scores }) }
}

/** The newest score of the occasion was a slip. */
export function takeBackScore(outcomes: Outcomes, at: Instant): Outcomes {
  const scores = scoresOf(outcomes, at).slice(0, -1)
  const activities = outcomes.activities.map((activity, place) =>
    place === scores.length && activity.first?.at === at ? { ...activity, first: null } : activity,
  )
  return { ...outcomes, activities, rounds: keep(outcomes.rounds, { at, scores }) }
}

/** The last round against the first score of the same activities. */
export function activityChangeOf({ activities, rounds }: Outcomes): ActivityChange | null {
  const last = rounds.at(-1)
  if (last === undefined) return null
  const first = activities.map((activity) => (activity.first !== null && activity.first.at < last.at ? activity.first.score : null))
  return compareActivities(first, last.scores)
}

/** From 7 worse to 7 better; null where it was not said how much. */
export function signedRating({ turn, amount }: GlobalRating): number | null {
  return amountOf[turn](amount)
}

const amountOf: Record<Turn, (amount: number | null) => number | null> = {
  better: (amount) => amount,
  same: () => 0,
  worse: (amount) => (amount === null ? null : -amount),
}
