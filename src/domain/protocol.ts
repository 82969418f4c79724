import type { LadderId } from './direction.ts'

/**
 * The thresholds of a protocol, as plain numbers. In `content/protocols/*.yaml` every one stands with its source, and
 * `src/content` refuses a value outside the hard bounds. Pain is 0–10; fractions are of 1; days are local calendar days.
 */
export interface Protocol {
  readonly id: string
  readonly pain: {
    readonly comfortableUpTo: number
    readonly amberUpTo: number
    /** A set above this ends the session. */
    readonly endsSessionAbove: number
    readonly urgentFrom: number
    readonly urgentAboveUsualBy: number
    /** From this usual pain on nothing progresses by itself. */
    readonly noProgressFromUsual: number
  }
  /** Of every dose of a ladder; a pair of sides does them on each side. */
  readonly sets: Readonly<Record<LadderId, number>>
  /** Of dynamic work, each rising, from the lowest dose under the entry to the last before a large load step. */
  readonly repetitions: { readonly below: readonly number[]; readonly range: readonly number[]; readonly beyond: readonly number[] }
  /** Not automatic: the dose is held, and only the therapist adds. */
  readonly progress: { readonly isAutomatic: boolean }
  readonly reserve: { readonly forProgress: number; readonly onEntryUnmeasured: number }
  readonly morning: { readonly badAboveUsualBy: number }
  readonly weekly: { readonly noProgressAboveUsualBy: number }
  /** How many sessions running make the rule fire. */
  readonly running: { readonly amber: number; readonly red: number; readonly badMornings: number; readonly lowestDose: number }
  readonly ease: { readonly atLeast: number }
  readonly loadStep: {
    readonly largest: number
    readonly farAbove: number
    readonly approvalAbove: number
    /** Places of `beyond` asked for after a step above `largest`, and above `farAbove`. */
    readonly beyondPlaces: number
    readonly farBeyondPlaces: number
    readonly firstPlateKg: number
  }
  /** Fractions of the maximal voluntary isometric contraction. */
  readonly working: Readonly<Record<LadderId, { readonly warmUp: number; readonly target: number }>>
  readonly maximum: {
    /** Fractions of the maximal voluntary isometric contraction. */
    readonly bandEntry: number
    readonly bandLeave: number
    /** Where the working load starts on its ramp to the target. */
    readonly start: number
    readonly ceiling: number
  }
  readonly band: { readonly stepsAboveEntry: number }
  readonly harness: { readonly entryUpToKg: number; readonly ceilingKg: number }
  readonly loadedRung: { readonly sessions: number; readonly days: number }
  /** How much stands in one session; a pair of sides counts as two directions. */
  readonly session: { readonly mostDirections: number; readonly mostSets: number }
  readonly retest: { readonly everyDays: number }
  readonly absence: { readonly withdrawAfterDays: number; readonly easeAfterDays: number; readonly reenterAfterDays: number }
  readonly supervision: { readonly noProgressAfterDays: number; readonly noSessionAfterDays: number }
  readonly approval: { readonly lapsesAfterDays: number }
  readonly lock: { readonly sessionsWithoutProgress: number }
  readonly silence: { readonly askAfterMinutes: number; readonly pauseAfterMinutes: number }
}

/** Every threshold, without the name of the protocol. */
export type Thresholds = Omit<Protocol, 'id'>
export type ThresholdValue = number | boolean | readonly number[]

type PathsIn<T> = { [Key in keyof T & string]: T[Key] extends ThresholdValue ? Key : `${Key}.${PathsIn<T[Key]>}` }[keyof T & string]
/** Where a threshold stands, as in `pain.comfortableUpTo` or `working.extension.target`. */
export type ThresholdPath = PathsIn<Thresholds>

type SomeOf<T> = { readonly [Key in keyof T]?: T[Key] extends ThresholdValue ? T[Key] : SomeOf<T[Key]> }
/** What a therapist sets otherwise for one client. */
export type ThresholdOverrides = SomeOf<Thresholds>

export type ThresholdSources = ReadonlyMap<ThresholdPath, string>

/** What stands at a path; undefined where nothing was set. */
export function thresholdAt(thresholds: ThresholdOverrides, path: ThresholdPath): ThresholdValue | undefined {
  const found = path.split('.').reduce<unknown>((inner, key) => (inner as Record<string, unknown> | undefined)?.[key], thresholds)
  return found as ThresholdValue | undefined
}
