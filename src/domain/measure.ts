/** What is measured over the weeks. `activities` is the mean of a client's own activities, `single-activity` one of them. */
export const measureIds = ['pain', 'activities', 'single-activity', 'disability', 'global-change'] as const
export type MeasureId = (typeof measureIds)[number]

/** How sure a published figure is; what is only faintly remembered is no figure. */
export const certainties = ['found', 'found-2nd', 'calc', 'memory:high', 'memory:medium'] as const
export type Certainty = (typeof certainties)[number]

export interface Figure {
  readonly value: number
  readonly certainty: Certainty
}

/** Who was measured; a change means something for them first. */
export const populations = [
  'neck-pain',
  'mechanical-neck-pain',
  'radiculopathy',
  'cervicogenic-headache',
  'low-back-pain',
  'chronic-pain',
  'heart-or-lung-disease',
  'not-stated',
] as const
export type Population = (typeof populations)[number]

/** What one publication says of a measure, in the measure's own points. */
export interface MeasureSource {
  readonly id: string
  readonly citation: string
  readonly population: Population
  /** Minimal detectable change: smaller ones may be nothing but error. */
  readonly detectable: Figure | null
  /** Standard error of measurement, from which the reliable change follows. */
  readonly standardError: Figure | null
  /** Minimal important change: the smallest that mattered to people. */
  readonly important: Figure | null
  /** The same in per cent of the first value. */
  readonly importantPercent: Figure | null
}

export interface Measure {
  readonly id: MeasureId
  readonly least: number
  readonly most: number
  readonly better: 'lower' | 'higher'
  readonly sources: readonly MeasureSource[]
}

export interface Measures {
  readonly of: Readonly<Record<MeasureId, Measure>>
  /** How often the weekly check-in asks for more than pain. */
  readonly everyWeeks: { readonly activities: number; readonly globalChange: number }
}
