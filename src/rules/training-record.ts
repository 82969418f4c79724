// Decides: how much was trained, in sums a therapist can read. Nothing here gates progress or changes a dose.
// Source: session load is effort 0-10 times minutes (Foster 2001); adherence is done of prescribed, excess apart (our
// choice). Monotony, strain and ratios over weeks are left out on purpose: DEVELOPERS.md says why. Reviewed 2026-11.
import type { LadderId } from '#src/domain/direction.ts'
import type { Dose, Load } from '#src/domain/dose.ts'
import type { Work } from '#src/domain/exercise.ts'

/** A set that was reported on. */
export interface SetDone {
  readonly ladder: LadderId
  readonly dose: Dose
  readonly work: Work
  readonly isFinished: boolean
}

/**
 * Sets × repetitions × load, each unit apart, since kilograms hung and newtons of a band do not add up. Without a load that
 * is known in its unit only repetitions are counted: a push is the client's own guess.
 */
export interface Volume {
  readonly repetitions: number
  readonly kilogramRepetitions: number
  readonly newtonRepetitions: number
}

export const noVolume: Volume = { repetitions: 0, kilogramRepetitions: 0, newtonRepetitions: 0 }

const volumeOfLoad: { [Kind in Load['kind']]: (reps: number, load: Extract<Load, { kind: Kind }>) => Volume } = {
  none: (reps) => ({ ...noVolume, repetitions: reps }),
  push: (reps) => ({ ...noVolume, repetitions: reps }),
  mass: (reps, { kilograms }) => ({ ...noVolume, kilogramRepetitions: reps * kilograms }),
  force: (reps, { newtons }) => ({ ...noVolume, newtonRepetitions: reps * newtons }),
}

/** Of one set. How many repetitions of a set that was not finished were done is not known: none is counted. */
export function volumeOf({ dose, isFinished }: SetDone): Volume {
  return isFinished ? (volumeOfLoad[dose.load.kind] as (reps: number, load: Load) => Volume)(dose.reps, dose.load) : noVolume
}

/** Seconds of one set: of holding, or of the tempo asked for. */
export function tensionSeconds({ dose, work, isFinished }: SetDone): number {
  if (!isFinished) return 0
  const ofRepetition = work.kind === 'holds' ? (dose.holdSeconds ?? 0) : work.tempoSeconds.reduce((sum, seconds) => sum + seconds, 0)
  return dose.reps * ofRepetition
}

/** A session this long was left lying and taken up again: its minutes say nothing about its load (our choice). */
const longestMinutes = 120

/** Effort 0-10 times minutes; null where the effort was not told or the minutes cannot be those of training. */
export function sessionLoad(effort: number | null, minutes: number): number | null {
  return effort === null || minutes > longestMinutes ? null : effort * minutes
}

export interface Adherence {
  /** From 0 to 1; null where nothing was prescribed, which is neither all nor nothing. */
  readonly share: number | null
  /** Sessions beyond those prescribed: they make up for none that were missed. */
  readonly excess: number
}

export function adherenceOf(done: number, prescribed: number): Adherence {
  const share = prescribed === 0 ? null : Math.min(done, prescribed) / prescribed
  return { share, excess: Math.max(0, done - prescribed) }
}

/** The sums of an ISO week. */
export interface TrainingWeek {
  /** `2026-W48`: text order is time's order. */
  readonly week: string
  /** Sessions that the plan asked for; a rest by order is none. */
  readonly prescribed: number
  /** Sessions in which at least one set was done. */
  readonly done: number
  readonly sets: number
  readonly tensionSeconds: number
  /** Of the sessions whose load is known. */
  readonly effortMinutes: number
  readonly rated: number
  readonly volumes: Readonly<Partial<Record<LadderId, Volume>>>
}

export function emptyWeek(week: string): TrainingWeek {
  return { week, prescribed: 0, done: 0, sets: 0, tensionSeconds: 0, effortMinutes: 0, rated: 0, volumes: {} }
}

/** The week with one more session in it. */
export function withSession(week: TrainingWeek, sets: readonly SetDone[]): TrainingWeek {
  const volumes = sets.reduce<TrainingWeek['volumes']>(
    (sums, set) => ({ ...sums, [set.ladder]: addVolumes(sums[set.ladder] ?? noVolume, volumeOf(set)) }),
    week.volumes,
  )
  const seconds = sets.reduce((sum, set) => sum + tensionSeconds(set), week.tensionSeconds)
  return { ...week, done: week.done + 1, sets: week.sets + sets.length, tensionSeconds: seconds, volumes }
}

/** The week with the load of one of its sessions known. */
export function withLoad(week: TrainingWeek, load: number): TrainingWeek {
  return { ...week, effortMinutes: week.effortMinutes + load, rated: week.rated + 1 }
}

function addVolumes(a: Volume, b: Volume): Volume {
  return {
    repetitions: a.repetitions + b.repetitions,
    kilogramRepetitions: a.kilogramRepetitions + b.kilogramRepetitions,
    newtonRepetitions: a.newtonRepetitions + b.newtonRepetitions,
  }
}
