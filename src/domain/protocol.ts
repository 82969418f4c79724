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
  readonly maximum: {
    /** Fractions of the maximal voluntary isometric contraction. */
    readonly bandEntry: number
    readonly bandLeave: number
    readonly ceiling: number
  }
  readonly band: { readonly stepsAboveEntry: number }
  readonly harness: { readonly entryUpToKg: number; readonly ceilingKg: number }
  readonly loadedRung: { readonly sessions: number; readonly days: number }
  readonly absence: { readonly withdrawAfterDays: number; readonly easeAfterDays: number; readonly reenterAfterDays: number }
  readonly supervision: { readonly noProgressAfterDays: number; readonly noSessionAfterDays: number }
  readonly approval: { readonly lapsesAfterDays: number }
  readonly lock: { readonly sessionsWithoutProgress: number }
  readonly silence: { readonly askAfterMinutes: number; readonly pauseAfterMinutes: number }
}
