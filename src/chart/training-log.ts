// What a client has trained, as sums of weeks: bounded, so that no event costs more the longer they train.
import type { LocalDate, SessionId } from '#src/domain/identifier.ts'
import { emptyWeek, withLoad, withSession, type SetDone, type TrainingWeek } from '#src/rules/training-record.ts'
import { isoWeekOf } from '#src/schedule/iso-week.ts'

export interface TrainingLog {
  /** Weeks in which something was prescribed or done, the newest last. */
  readonly weeks: readonly TrainingWeek[]
  /** The last date counted as prescribed. */
  readonly prescribedOn: LocalDate | null
  /** The last date on which something was done. */
  readonly doneOn: LocalDate | null
  /** A session whose effort is still to be told. */
  readonly unrated: UnratedSession | null
}

export interface UnratedSession {
  readonly session: SessionId
  readonly on: LocalDate
  readonly minutes: number
}

export const noTraining: TrainingLog = { weeks: [], prescribedOn: null, doneOn: null, unrated: null }

/** A block of twelve weeks and the month before it. */
const weeksKept = 16

function changeWeek(log: TrainingLog, on: LocalDate, change: (week: TrainingWeek) => TrainingWeek): TrainingLog {
  const id = isoWeekOf(on)
  const known = log.weeks.find(({ week }) => week === id) ?? emptyWeek(id)
  const others = log.weeks.filter((week) => week !== known)
  const weeks = [...others, change(known)].sort((a, b) => (a.week < b.week ? -1 : 1))
  return { ...log, weeks: weeks.slice(-weeksKept) }
}

/** The plan asks for a session on that date; asked twice it counts once. */
export function withPrescribed(log: TrainingLog, on: LocalDate): TrainingLog {
  if (log.prescribedOn === on) return log
  return { ...changeWeek(log, on, (week) => ({ ...week, prescribed: week.prescribed + 1 })), prescribedOn: on }
}

/** The rules or the therapist order rest on that date after all: a session that was done stays asked for. */
export function withRestOrdered(log: TrainingLog, on: LocalDate): TrainingLog {
  if (log.prescribedOn !== on || log.doneOn === on) return log
  return { ...changeWeek(log, on, (week) => ({ ...week, prescribed: week.prescribed - 1 })), prescribedOn: null }
}

export function withDone(log: TrainingLog, on: LocalDate, sets: readonly SetDone[]): TrainingLog {
  return { ...changeWeek(log, on, (week) => withSession(week, sets)), doneOn: on }
}

/** The effort of the session that waits for it was told or not; its load is null where it stays unknown. */
export function withEffort(log: TrainingLog, load: number | null): TrainingLog {
  const { unrated } = log
  if (unrated === null) return log
  const counted = load === null ? log : changeWeek(log, unrated.on, (week) => withLoad(week, load))
  return { ...counted, unrated: null }
}
