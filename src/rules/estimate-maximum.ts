// Decides: what a client could probably lift once, from a set that was left with some in reserve. For the therapist's eyes: it
// raises nothing.
// Source: seven published formulas (Epley 1985 to Wathan 1994, coefficients from a secondary table). None was derived on neck
// muscles, and above ten repetitions they part too far to use. That the estimate is their median, and that a reserve may be
// misjudged by one either way, is our choice. The load is what is added: the head is not counted. Reviewed 2026-11.

export const repetitionFormulas = {
  epley: (load: number, reps: number) => load * (1 + reps / 30),
  brzycki: (load: number, reps: number) => (36 * load) / (37 - reps),
  lander: (load: number, reps: number) => (100 * load) / (101.3 - 2.67123 * reps),
  lombardi: (load: number, reps: number) => load * reps ** 0.1,
  oConner: (load: number, reps: number) => load * (1 + 0.025 * reps),
  wathan: (load: number, reps: number) => (100 * load) / (48.8 + 53.8 * Math.exp(-0.075 * reps)),
  mayhew: (load: number, reps: number) => (100 * load) / (52.2 + 41.9 * Math.exp(-0.055 * reps)),
} as const

export interface SetToFailure {
  /** Newtons or kilograms; the estimate has the same unit. */
  readonly load: number
  readonly reps: number
  readonly reserve: number
}

export type MaximumEstimate =
  | { readonly kind: 'estimated'; readonly value: number; readonly low: number; readonly high: number; readonly toFailure: number }
  | { readonly kind: 'none'; readonly reason: 'no-load' | 'no-repetitions' | 'too-many-repetitions'; readonly toFailure: number }

const mostRepetitions = 10
const reserveMisjudgedBy = 1

export function estimateMaximum({ load, reps, reserve }: SetToFailure): MaximumEstimate {
  const toFailure = reps + reserve
  if (load <= 0) return { kind: 'none', reason: 'no-load', toFailure }
  if (reps < 1) return { kind: 'none', reason: 'no-repetitions', toFailure }
  if (toFailure > mostRepetitions) return { kind: 'none', reason: 'too-many-repetitions', toFailure }
  // A set that was done shows at least its own repetitions, whatever was thought to be left.
  const fewest = Math.max(reps, toFailure - reserveMisjudgedBy)
  return {
    kind: 'estimated',
    value: middleOf(estimates(load, toFailure)),
    // Nobody lifts less once than they have just lifted several times.
    low: Math.max(load, Math.min(...estimates(load, fewest))),
    high: Math.max(...estimates(load, toFailure + reserveMisjudgedBy)),
    toFailure,
  }
}

function estimates(load: number, reps: number): readonly number[] {
  return Object.values(repetitionFormulas).map((formula) => formula(load, reps))
}

/** The median of an odd number of values. */
function middleOf(values: readonly number[]): number {
  return values.toSorted((a, b) => a - b)[(values.length - 1) / 2] ?? NaN
}
