/** One figure of the bench; a limit of null is for information. */
export interface Figure {
  readonly name: string
  readonly value: number
  readonly limit: number | null
  /** Which side of the limit is good; `most` where nothing is said. */
  readonly side?: 'least'
  readonly holds: boolean
}

export function atMost(name: string, value: number, limit: number | null): Figure {
  return { name, value, limit, holds: limit === null || value <= limit }
}

export function atLeast(name: string, value: number, limit: number): Figure {
  return { name, value, limit, side: 'least', holds: value >= limit }
}

export function medianOf(values: readonly number[]): number {
  return values.toSorted((a, b) => a - b)[Math.floor(values.length / 2)] ?? Number.NaN
}

/** The value that `part` (0–1) of the others do not pass. */
export function quantileOf(values: readonly number[], part: number): number {
  return values.toSorted((a, b) => a - b)[Math.min(values.length - 1, Math.floor(values.length * part))] ?? Number.NaN
}
