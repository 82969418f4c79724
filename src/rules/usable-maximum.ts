// Decides: which measured maximum bounds the loads of a ladder, and how far apart its trials may lie.
// Source: our choice: the best trial counts, the latest measurement of a side, and of two sides the weaker, since both do the
// same work. 10 % between trials, and between sides, is our choice: no threshold for necks is published. Reviewed 2026-11.
import type { Assumptions } from '#src/domain/assumptions.ts'
import { directionsOf, ladderOf, type Direction, type LadderId } from '#src/domain/direction.ts'
import type { Measurement } from '#src/domain/plan.ts'
import { epsilon, toNewtons } from '#src/domain/units.ts'
import { momentOf } from './gravity-moment.ts'

/** A maximal voluntary isometric contraction. */
export interface Strength {
  readonly forceN: number
  /** At the lever arm that was measured, or the assumed one. */
  readonly momentNm: number
}

/** The strength that bounds a ladder. */
export interface Maximum extends Strength {
  /**
   * The lowest ever measured. A retest sets target and ceiling, but not where a rung is entered: an entry that rose with it
   * would leave a client below their own chain, and so send them down a rung for having become stronger.
   */
  readonly lowest: Strength
}

const wideAbove = 0.1

export function usableMaximum(measurements: readonly Measurement[], ladder: LadderId, assumptions: Assumptions): Maximum | null {
  const own = measurements.filter(({ direction }) => ladderOf(direction) === ladder)
  if (own.length === 0) return null
  const latest = directionsOf(ladder).flatMap((direction) => latestOf(own, direction) ?? [])
  return { ...weakest(latest, assumptions), lowest: weakest(own, assumptions) }
}

/** A direction's newest measurement. */
export function latestOf(measurements: readonly Measurement[], direction: Direction): Measurement | undefined {
  return measurements.findLast((one) => one.direction === direction)
}

/** Force and moment each by itself: with different lever arms the lower force need not be the lower moment. */
function weakest(measurements: readonly Measurement[], assumptions: Assumptions): Strength {
  const strengths = measurements.map((measurement) => measuredAs(measurement, assumptions))
  return {
    forceN: Math.min(...strengths.map(({ forceN }) => forceN)),
    momentNm: Math.min(...strengths.map(({ momentNm }) => momentNm)),
  }
}

export function measuredAs(measurement: Measurement, { testerLeverCm }: Assumptions): Strength {
  const forceN = toNewtons(measurement.force, measurement.unit)
  return { forceN, momentNm: momentOf(forceN, measurement.leverCm ?? testerLeverCm) }
}

export interface Difference {
  /** Of the higher. */
  readonly share: number
  readonly isTold: boolean
}

/** How far apart the trials of one measurement lie; null for a single one. */
export function trialSpread(trials: readonly number[]): Difference | null {
  return trials.length < 2 ? null : difference(Math.min(...trials), Math.max(...trials))
}

/** 100 × (stronger − weaker) / stronger, as a share; null until both sides are measured. */
export function sideDifference(measurements: readonly Measurement[], ladder: LadderId): Difference | null {
  const [left, right] = directionsOf(ladder).map((direction) => latestOf(measurements, direction))
  if (!left || !right) return null
  const strengths = comparable(left, right)
  return difference(Math.min(...strengths), Math.max(...strengths))
}

/** Below 0 where the first is the weaker one. */
export function compareStrength(a: Measurement, b: Measurement): number {
  const [first, second] = comparable(a, b)
  return first - second
}

/** Where both lever arms are known the moments compare; else the forces, as taken by one tester at one place. */
function comparable(a: Measurement, b: Measurement): readonly [number, number] {
  const ofA = toNewtons(a.force, a.unit)
  const ofB = toNewtons(b.force, b.unit)
  return a.leverCm === null || b.leverCm === null ? [ofA, ofB] : [momentOf(ofA, a.leverCm), momentOf(ofB, b.leverCm)]
}

function difference(lower: number, higher: number): Difference {
  const share = (higher - lower) / higher
  // 112 and 100.8 differ by 10 %, whatever the last bit says.
  return { share, isTold: share > wideAbove + epsilon }
}
