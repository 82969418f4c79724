import type { LadderId } from './direction.ts'
import { compareDoses, type Dose } from './dose.ts'
import type { ExerciseId } from './identifier.ts'

/**
 * One place of a chain. The last dose before a load step, and of a rung, stands twice: it has to be met once and met
 * again before the client moves on, so that "two sessions running" are two places.
 */
export interface Place {
  readonly rung: number
  readonly exercise: ExerciseId
  readonly dose: Dose
  readonly standing: 'only' | 'once' | 'again'
}

/** A place with what the rules need to know about it. */
export interface ChainPlace extends Place {
  readonly isEntry: boolean
  /** Reached by a load step so large that the therapist must approve it. */
  readonly needsApproval: boolean
  readonly isTherapistOnly: boolean
}

/** Every dose from the lowest to the highest, in one order, across the rungs, for one client and ladder. */
export interface Chain {
  readonly ladder: LadderId
  readonly places: readonly ChainPlace[]
}

const standingOrder = { once: 0, only: 0, again: 1 } as const

/** The order of places: rung, then dose, then standing. */
export function comparePlaces(a: Place, b: Place): number {
  return a.rung - b.rung || compareDoses(a.dose, b.dose) || standingOrder[a.standing] - standingOrder[b.standing]
}
