/** Where the external resistance comes from; `push` is the client's own hand, 0–10 of their effort. */
export type Load =
  | { readonly kind: 'none' }
  | { readonly kind: 'push'; readonly effort: number }
  | { readonly kind: 'mass'; readonly kilograms: number; readonly plates: readonly number[] }
  | { readonly kind: 'force'; readonly newtons: number; readonly band: string; readonly stretchCm: number }

/** One dose: sets × repetitions × hold, against a load. `holdSeconds` is null on dynamic rungs. */
export interface Dose {
  readonly sets: number
  readonly reps: number
  readonly holdSeconds: number | null
  readonly load: Load
}

const magnitude: { [Kind in Load['kind']]: (load: Extract<Load, { kind: Kind }>) => number } = {
  none: () => 0,
  push: (load) => load.effort,
  mass: (load) => load.kilograms,
  force: (load) => load.newtons,
}

/** The size of a load in its own unit; comparable within a rung only, where the kind does not change. */
export function loadMagnitude(load: Load): number {
  return (magnitude[load.kind] as (load: Load) => number)(load)
}

/**
 * The order of doses on one rung: more load is harder; at the same load more hold, then more repetitions, then more sets.
 * Negative when `a` is easier.
 */
export function compareDoses(a: Dose, b: Dose): number {
  return (
    loadMagnitude(a.load) - loadMagnitude(b.load) ||
    (a.holdSeconds ?? 0) - (b.holdSeconds ?? 0) ||
    a.reps - b.reps ||
    a.sets - b.sets
  )
}
