/** One figure of the bench; a limit of null is for information. */
export interface Figure {
  readonly name: string
  readonly value: number
  readonly limit: number | null
  readonly holds: boolean
}

export function atMost(name: string, value: number, limit: number | null): Figure {
  return { name, value, limit, holds: limit === null || value <= limit }
}

export function medianOf(values: readonly number[]): number {
  return values.toSorted((a, b) => a - b)[Math.floor(values.length / 2)] ?? Number.NaN
}
