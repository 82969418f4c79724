/**
 * Which training day of the schedule a date belongs to. A date between two scheduled days belongs to the one before it, so
 * that a session that is late or early changes no turn.
 */
export interface TrainingDay {
  /** Calendar weeks, from Monday, since a fixed Monday. */
  readonly week: number
  /** Among the scheduled days of that week, from 0. */
  readonly day: number
  readonly daysAWeek: number
}
