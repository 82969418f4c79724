// Daily adjustable progression: Knight 1979, Am J Sports Med 7:336-337, and Knight 1985, Clin Sports Med 4:483-493, which
// has wider bands. Steps [found]
// https://www.physio-pedia.com/index.php?title=Practical_Guide_to_Hip_and_Knee_Strengthening&diff=prev&oldid=351059 , save
// the row of 3-4 repetitions, the bands of 1985 [memory:high] and which set feeds the next session [memory:medium].
// Written for knees: what is borrowed here is the form, not the kilograms.

export const versions = [1979, 1985] as const
export type Version = (typeof versions)[number]

/** How the repetitions of a maximal set compare with the five or six that a right weight allows. */
export const bands = ['far too few', 'too few', 'right', 'many', 'far too many'] as const
export type Band = (typeof bands)[number]

/** The most repetitions of every band but the last. */
const upTo: Record<Version, readonly number[]> = { 1979: [2, 4, 6, 10], 1985: [2, 4, 7, 12] }

export function bandOf(reps: number, version: Version): Band {
  const index = upTo[version].findIndex((most) => reps <= most)
  return bands[index < 0 ? bands.length - 1 : index] as Band
}

/** A change of weight, from the smallest to the largest that the table leaves to the trainer; negative is less. */
export interface Step {
  readonly least: number
  readonly most: number
}

interface Row {
  /** Of the fourth set, the same day. */
  readonly fourthSet: Step
  readonly nextSession: Step
}

const same: Step = { least: 0, most: 0 }

export const kilograms: Record<Band, Row> = {
  'far too few': { fourthSet: { least: -2.5, most: -5 }, nextSession: { least: -2.5, most: -5 } },
  'too few': { fourthSet: { least: 0, most: -2.5 }, nextSession: same },
  right: { fourthSet: same, nextSession: { least: 2.5, most: 5 } },
  many: { fourthSet: { least: 2.5, most: 5 }, nextSession: { least: 2.5, most: 7.5 } },
  'far too many': { fourthSet: { least: 5, most: 7.5 }, nextSession: { least: 5, most: 10 } },
}

export const pounds: Record<Band, Row> = {
  'far too few': { fourthSet: { least: -5, most: -10 }, nextSession: { least: -5, most: -10 } },
  'too few': { fourthSet: { least: 0, most: -5 }, nextSession: same },
  right: { fourthSet: same, nextSession: { least: 5, most: 10 } },
  many: { fourthSet: { least: 5, most: 10 }, nextSession: { least: 5, most: 15 } },
  'far too many': { fourthSet: { least: 10, most: 15 }, nextSession: { least: 10, most: 20 } },
}

/** Which set the next session is read off; secondary accounts differ. */
export const readings = ['fourth set', 'third set'] as const
export type ReadingOf = (typeof readings)[number]

export interface SetDone {
  readonly kilograms: number
  readonly reps: number
}

export interface Session {
  readonly version: Version
  readonly nextReads: ReadingOf
  /** The working weight: six repetitions and no more at the very start. */
  readonly workingKg: number
  /** Repetitions of the third and of the fourth set, both as many as possible. */
  readonly thirdReps: number
  readonly fourthReps: number
  /** Where in each step the trainer chooses, 0 (the least) to 1 (the most). */
  readonly boldness: number
}

export interface SessionDone {
  readonly sets: readonly [SetDone, SetDone, SetDone, SetDone]
  readonly nextWorkingKg: number
}

/** The whole of one session: ten at half, six at three quarters, the most at the full weight, the most once adjusted. */
export function trainOnce({ version, nextReads, workingKg, thirdReps, fourthReps, boldness }: Session): SessionDone {
  const chosen = ({ least, most }: Step): number => least + (most - least) * boldness
  const fourthKg = Math.max(0, workingKg + chosen(kilograms[bandOf(thirdReps, version)].fourthSet))
  const read: SetDone = nextReads === 'fourth set' ? { kilograms: fourthKg, reps: fourthReps } : { kilograms: workingKg, reps: thirdReps }
  return {
    sets: [
      { kilograms: workingKg * 0.5, reps: 10 },
      { kilograms: workingKg * 0.75, reps: 6 },
      { kilograms: workingKg, reps: thirdReps },
      { kilograms: fourthKg, reps: fourthReps },
    ],
    nextWorkingKg: Math.max(0, read.kilograms + chosen(kilograms[bandOf(read.reps, version)].nextSession)),
  }
}
