import type { LadderId } from './direction.ts'
import type { ExerciseId } from './identifier.ts'

/** Equipment an exercise may need; what a client owns is in the plan. */
export const equipmentKinds = ['band', 'harness', 'support', 'step'] as const
export type EquipmentKind = (typeof equipmentKinds)[number]

/** One step of an isometric rung. `push` is the effort of the client's own hand, 0–10, or null where none is used. */
export interface HoldStep {
  readonly reps: number
  readonly holdSeconds: number
  readonly push: number | null
}

/** The grain of an exercise: how its doses climb. */
export type Work =
  | {
      readonly kind: 'holds'
      /** Easiest first, all below the entry. */
      readonly below: readonly HoldStep[]
      readonly entry: HoldStep
      /** In climbing order. */
      readonly above: readonly HoldStep[]
    }
  | {
      readonly kind: 'repetitions'
      /** How many repetitions is the protocol's to say. */
      readonly load: 'band' | 'harness'
      /** Seconds for lowering, pausing and lifting. */
      readonly tempoSeconds: readonly number[]
    }

/** How the head's own weight acts: the tilt of the line from neck to head against upright, at the hardest point. */
export interface Posture {
  readonly headTiltDegrees: number
}

/** What an exercise asks, as prescribed; its words are in {@link ExerciseWords}. */
export interface Exercise {
  readonly id: ExerciseId
  readonly ladder: LadderId
  readonly work: Work
  /** Null where the head's own weight is carried or does not matter. */
  readonly posture: Posture | null
  readonly restSeconds: number
  /** A loaded rung is left only after enough sessions and days on it. */
  readonly isLoaded: boolean
  /** Only a therapist puts a client here; the rules never do. */
  readonly isTherapistOnly: boolean
  /** Entering needs the therapist's approval besides being shown. */
  readonly needsApprovalToEnter: boolean
  /** Leaving needs the therapist's word, e.g. that the head lifts against gravity. */
  readonly needsApprovalToLeave: boolean
  readonly equipment: readonly EquipmentKind[]
  readonly ruledOutBy: { readonly restrictions: readonly string[]; readonly contraindications: readonly string[] }
  /** Chosen before its alternatives on the rung when the plan lists one of these restrictions. */
  readonly chosenFor: readonly string[]
  readonly spacing: { readonly hours: number; readonly sessionsPerWeek: number | null }
  /** Harness and bridge: silence in a set tells the therapist. */
  readonly isSilenceTold: boolean
}

/** An exercise in plain words, one record a language. */
export interface ExerciseWords {
  readonly name: string
  /** A short name used inside a sentence. */
  readonly short: string
  readonly setUp: readonly string[]
  readonly movement: readonly string[]
  readonly breathing: string
  readonly goodControl: string
  readonly faults: readonly string[]
  readonly stopWhen: readonly string[]
  /** One line said with every set. */
  readonly cue: string
}

export interface Rung {
  /** Numbered from 1, easiest first. */
  readonly rung: number
  /** Equivalent exercises; the first that the plan allows is taken. */
  readonly exercises: readonly ExerciseId[]
}

export interface Ladder {
  readonly id: LadderId
  /** Muscle groups that do the work, so that a session does not tire the same ones twice running. */
  readonly muscles: readonly string[]
  readonly rungs: readonly Rung[]
  /** What is done, without answers, before the first set. */
  readonly warmUp: readonly WarmUpStep[]
}

/** A warm-up exercise with its fixed dose. */
export interface WarmUpStep {
  readonly exercise: ExerciseId
  readonly sets: number
  readonly reps: number
  readonly holdSeconds: number | null
}
