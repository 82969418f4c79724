// Decides: what may be said of a change between two measurements, compared with every source of the measure.
// Source: the figures stand with theirs in content/measures.yaml; that nothing is said where the sources disagree, and
// that "important" is said of a change to the better only, is our choice. Reviewed 2026-11.
import type { Measure, MeasureSource, Population } from '#src/domain/measure.ts'
import { detectableChange, reliableChange } from './reliable-change.ts'

/** `detectable` and `reliable` compare with the error, the other two with what mattered to people. */
export const criterionKinds = ['detectable', 'reliable', 'important', 'important-percent'] as const
export type CriterionKind = (typeof criterionKinds)[number]

export interface Criterion {
  readonly kind: CriterionKind
  readonly source: string
  readonly population: Population
  /** Points, or per cent. */
  readonly limit: number
  readonly isMet: boolean
}

/** In how many of the criteria something holds. */
export type Agreement = 'every' | 'some' | 'no'

export interface ChangeVerdict {
  readonly points: number
  /** Of the first value; null where that was 0. */
  readonly percent: number | null
  readonly trend: 'better' | 'worse' | 'same'
  /** Whether it is larger than the error; null where no source says how large that is. */
  readonly error: Agreement | null
  /** Whether it is as large as the smallest that mattered; null where no source says so, or it is none to the better. */
  readonly importance: Agreement | null
  readonly criteria: readonly Criterion[]
}

export function judgeChange(measure: Measure, first: number, last: number): ChangeVerdict {
  const points = withoutDust(last - first)
  const percent = first === 0 ? null : withoutDust((points / first) * 100)
  const trend = trendOf(measure, points)
  const criteria = measure.sources.flatMap((source) => [
    ...comparedWithError(source, points),
    ...(trend === 'better' ? comparedWithImportance(source, points, percent) : []),
  ])
  const among = (...kinds: readonly CriterionKind[]): Agreement | null => agreement(criteria.filter(({ kind }) => kinds.includes(kind)))
  return { points, percent, trend, error: among('detectable', 'reliable'), importance: among('important', 'important-percent'), criteria }
}

/** 4.1 less 2 is 2.0999999999999996 to a computer, and would miss a limit of 2.1. */
function withoutDust(value: number): number {
  // Adding 0 turns -0 into 0.
  return Math.round(value * 1e9) / 1e9 + 0
}

function trendOf({ better }: Measure, points: number): ChangeVerdict['trend'] {
  if (points === 0) return 'same'
  return points < 0 === (better === 'lower') ? 'better' : 'worse'
}

function comparedWithError({ id, population, detectable, standardError }: MeasureSource, points: number): readonly Criterion[] {
  const of = { source: id, population }
  const size = Math.abs(points)
  return [
    ...(detectable === null ? [] : [{ ...of, kind: 'detectable' as const, limit: detectable.value, isMet: size >= detectable.value }]),
    ...(standardError === null
      ? []
      : [{ ...of, kind: 'reliable' as const, limit: detectableChange(standardError.value, 95), isMet: reliableChange(points, standardError.value).isReliable }]),
  ]
}

function comparedWithImportance({ id, population, important, importantPercent }: MeasureSource, points: number, percent: number | null): readonly Criterion[] {
  const of = { source: id, population }
  return [
    ...(important === null ? [] : [{ ...of, kind: 'important' as const, limit: important.value, isMet: Math.abs(points) >= important.value }]),
    ...(importantPercent === null || percent === null
      ? []
      : [{ ...of, kind: 'important-percent' as const, limit: importantPercent.value, isMet: Math.abs(percent) >= importantPercent.value }]),
  ]
}

function agreement(criteria: readonly Criterion[]): Agreement | null {
  if (criteria.length === 0) return null
  const met = criteria.filter(({ isMet }) => isMet).length
  if (met === criteria.length) return 'every'
  return met === 0 ? 'no' : 'some'
}
