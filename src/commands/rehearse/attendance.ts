import type { Direction } from '#src/domain/direction.ts'
import type { Dose } from '#src/domain/dose.ts'
import type { ExerciseId } from '#src/domain/identifier.ts'
import type { SessionAnswers, SetAnswer } from './answers-schema.ts'

/** A set as it is asked. */
export interface AskedSet {
  readonly direction: Direction
  readonly exercise: ExerciseId
  readonly dose: Dose
}

/**
 * How somebody attends one session: by a script, or as an invented client, who answers what they are asked and writes the
 * script meanwhile. The same question may come twice and gets the same answer.
 */
export interface Attendance {
  /** As far as it has been asked. */
  readonly answers: SessionAnswers
  before(): SessionAnswers['before']
  /** The `index`th set of its direction; null where it is left out. */
  set(asked: AskedSet, index: number): SetAnswer | null
  morning(): SessionAnswers['morning']
  /** There is no session today: the therapist has to clear it first. */
  findLocked(): void
}

export function attendByScript(answers: SessionAnswers): Attendance {
  return {
    answers,
    before: () => answers.before,
    set: ({ direction }, index) => answers.sets?.[direction]?.[index] ?? null,
    morning: () => answers.morning,
    findLocked: () => undefined,
  }
}
