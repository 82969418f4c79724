import type { OwnAssumptions } from './assumptions.ts'
import type { Direction } from './direction.ts'
import type { ExerciseId, LocalDate } from './identifier.ts'
import type { ThresholdOverrides } from './protocol.ts'
import type { ForceUnit } from './units.ts'

export const weekdays = ['mon', 'tue', 'wed', 'thu', 'fri', 'sat', 'sun'] as const
export type Weekday = (typeof weekdays)[number]

/** A local wall time, `HH:MM`, 24 hours. */
export type WallTime = string

/** Two stretches with the force the therapist measured at each; between them force is taken as linear. */
export interface BandPoint {
  readonly stretchCm: number
  readonly forceN: number
}

export interface Band {
  readonly id: string
  readonly points: readonly [BandPoint, BandPoint]
}

export interface Equipment {
  /** Every plate owned, one number each. */
  readonly platesKg: readonly number[]
  /** What the empty harness weighs; null where none is owned. */
  readonly harnessKg: number | null
  /** What holds the plates, all together; it hangs with the first of them. Absent where it weighs next to nothing. */
  readonly collarsKg?: number | undefined
  readonly bands: readonly Band[]
  /** A firm support for the back of the head, and something steady to hold. */
  readonly hasSupport: boolean
  readonly stepCm: number | null
}

export interface Schedule {
  readonly days: readonly Weekday[]
  readonly time: WallTime
  /** No reminder falls between these two. */
  readonly quiet: { readonly from: WallTime; readonly to: WallTime }
}

/** What decides whether somebody may be enrolled, and how far (content/triage.yaml holds the gates). */
export interface Screening {
  readonly age: number
  readonly bloodPressure: { readonly systolic: number; readonly diastolic: number } | null
  /** Conditions by id. */
  readonly conditions: readonly string[]
  readonly hasSurgeonClearance: boolean
  readonly hasGuardianConsent: boolean
  /** The therapist's reason for going beyond holds and band all the same; null where there is none. */
  readonly overrideReason: string | null
}

/** How many long-standing signs a plan holds: with more of them the screen would say little. */
export const mostKnownSigns = 5

/** A sign that was there before and does not alarm unless worse, new or spread. */
export interface KnownSign {
  readonly sign: string
  readonly words: string
  readonly side: 'left' | 'right' | 'both' | null
  readonly area: string
  readonly worst: number
}

export interface LadderPlan {
  readonly direction: Direction
  /** Where the client starts. */
  readonly rung: number
  readonly maxRung: number
  /** Exercises shown in person, with the set-up checked. */
  readonly shown: readonly ExerciseId[]
  /** Where the harness is left, all added weight counted; in place of the protocol's ceiling in kilograms. */
  readonly targetKg?: number | undefined
}

/** A maximal voluntary isometric contraction, measured by the therapist. */
export interface Measurement {
  readonly direction: Direction
  /** The best trial. */
  readonly force: number
  /** Every trial, in the same unit, where more than the best was noted. */
  readonly trials?: readonly number[] | undefined
  readonly unit: ForceUnit
  readonly leverCm: number | null
  readonly on: LocalDate | null
  /** Whoever wrote it was asked about an unlikely number and stays with it. */
  readonly isConfirmed?: boolean | undefined
}

export interface TherapistContact {
  readonly name: string
}

/** What a therapist has prescribed to one client. */
export interface Plan {
  readonly client: { readonly name: string; readonly language: string }
  readonly zone: string
  readonly emergencyNumber: string
  readonly outOfHoursNumber: string
  readonly protocol: string
  /** What the therapist sets otherwise than the protocol, within the same bounds. */
  readonly thresholds?: ThresholdOverrides | undefined
  /** Usual pain, 0–10: the only thing pain is compared with. */
  readonly usualPain: number
  readonly schedule: Schedule
  readonly equipment: Equipment
  readonly screening: Screening
  readonly knownSigns: readonly KnownSign[]
  readonly restrictions: readonly string[]
  readonly contraindications: readonly string[]
  readonly ladders: readonly LadderPlan[]
  readonly measurements: readonly Measurement[]
  /** What is known of this client in place of the shipped assumptions. */
  readonly assumptions?: OwnAssumptions | undefined
  readonly contacts: { readonly therapist: TherapistContact; readonly second: TherapistContact | null }
}
