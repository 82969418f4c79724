// Decides: which ladders are trained on a training day, and in which order.
// Source: our choice, for a clinician to review: whole ladders by turns under the limits of the protocol. Deep flexors
// before a bridge that day: common practice, no source. Reviewed 2026-11.
import type { LadderId } from '#src/domain/direction.ts'
import type { TrainingDay } from '#src/domain/training-day.ts'

export interface ComposedLadder {
  readonly ladder: LadderId
  /** One, or the two sides, which are trained together. */
  readonly directions: number
  readonly setsPerDirection: number
  readonly muscles: readonly string[]
}

export interface SessionToCompose {
  /** As the plan lists them. */
  readonly ladders: readonly ComposedLadder[]
  readonly turn: TrainingDay
  readonly most: { readonly directions: number; readonly sets: number }
}

export interface ComposedSession {
  /** How many training days it takes until every ladder has had its turn. */
  readonly turns: number
  /** In the order of work. */
  readonly ladders: readonly LadderId[]
}

type Group = readonly ComposedLadder[]
type Limits = SessionToCompose['most']

/**
 * Nothing that a client answers, and no place in a chain, enters the grouping: a ladder that eases, rests or is stopped
 * leaves its time free and gives it to no other.
 */
export function composeSession({ ladders, turn, most }: SessionToCompose): ComposedSession {
  const groups = groupByTurns(ladders, most)
  const today = groups[turnAmong(groups.length, turn)] ?? []
  return { turns: groups.length, ladders: orderOfWork(today).map(({ ladder }) => ladder) }
}

/**
 * Where the groups go evenly into the days of a week, every weekday would keep its group, and a client who never manages
 * Mondays would never train one of them: so the groups move on by one each week. Elsewhere they move on by themselves.
 */
function turnAmong(groups: number, { week, day, daysAWeek }: TrainingDay): number {
  const ordinal = week * daysAWeek + day + (daysAWeek % groups === 0 ? week : 0)
  return ((ordinal % groups) + groups) % groups
}

/** The plan's order cut into as few groups as the limits allow; among those, the evenest, then the fuller first. */
function groupByTurns(ladders: readonly ComposedLadder[], most: Limits): readonly Group[] {
  const [best] = waysToCut(ladders)
    .filter((groups) => groups.every((group) => isWithin(group, most)))
    .sort((a, b) => a.length - b.length || unevenness(a) - unevenness(b))
  return best ?? []
}

/** Every way to cut a list into runs; of two alike, the one whose first runs are longer comes first. */
function waysToCut(ladders: readonly ComposedLadder[]): readonly (readonly Group[])[] {
  if (ladders.length === 0) return [[]]
  return ladders.flatMap((_, index) => {
    const size = ladders.length - index
    return waysToCut(ladders.slice(size)).map((rest) => [ladders.slice(0, size), ...rest])
  })
}

/** A ladder that is over the limits alone is not cut: `check` refuses such a protocol. */
function isWithin(group: Group, most: Limits): boolean {
  return group.length === 1 || (directionsIn(group) <= most.directions && setsIn(group) <= most.sets)
}

function directionsIn(group: Group): number {
  return group.reduce((sum, { directions }) => sum + directions, 0)
}

function setsIn(group: Group): number {
  return group.reduce((sum, { directions, setsPerDirection }) => sum + directions * setsPerDirection, 0)
}

/** A sum of squares is least where the parts are most alike. */
function unevenness(groups: readonly Group[]): number {
  return groups.reduce((sum, group) => sum + setsIn(group) ** 2, 0)
}

/** The deep flexors activate the neck, and come before a bridge. What follows spares the muscles just worked. */
function orderOfWork(group: Group): Group {
  const first = group.filter(({ ladder }) => ladder === 'deep-flexors')
  const [best] = permutations(group.filter((one) => !first.includes(one)))
    .map((order) => [...first, ...order])
    .sort((a, b) => musclesShared(a) - musclesShared(b))
  return best ?? group
}

/** Ties keep the plan's order: it is the first permutation, and the sort is stable. */
function permutations(group: Group): readonly Group[] {
  if (group.length === 0) return [[]]
  return group.flatMap((one) => permutations(group.filter((other) => other !== one)).map((rest) => [one, ...rest]))
}

/** How many muscles go straight from one ladder into the next. */
function musclesShared(order: Group): number {
  return order.reduce((sum, { muscles }, index) => sum + muscles.filter((muscle) => order[index + 1]?.muscles.includes(muscle)).length, 0)
}
