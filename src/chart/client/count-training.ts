// Counts what was trained and what had been asked for, when a session ends and when a scheduled day reminds.
import { ladderOf } from '#src/domain/direction.ts'
import type { Answer } from '#src/conversation/question.ts'
import { sessionLoad, type SetDone } from '#src/rules/training-record.ts'
import { weekdayOf } from '#src/schedule/wall-time.ts'
import type { Chart, OpenSession } from '../chart.ts'
import type { Draft } from '../draft.ts'
import { withDone, withEffort, withPrescribed, withRestOrdered, type TrainingLog } from '../training-log.ts'
import { exerciseOf, planOf, todayOf } from './plan-facts.ts'
import { say } from './say.ts'

const minuteMs = 60_000

function changeLog(draft: Draft<Chart>, training: TrainingLog): void {
  if (training !== draft.document.training) draft.change({ training })
}

/** The plan asks for a session today, and nothing stands against it. */
export function countPrescribed(draft: Draft<Chart>): void {
  changeLog(draft, withPrescribed(draft.document.training, todayOf(draft)))
}

/** Nothing is due, pain forbids it, or a sign has locked it: who rests by order has missed nothing. */
export function countRestOrdered(draft: Draft<Chart>): void {
  changeLog(draft, withRestOrdered(draft.document.training, todayOf(draft)))
}

/** A session on a day that the schedule does not name is done without having been prescribed. */
export function countSession(draft: Draft<Chart>, session: OpenSession): void {
  const sets = setsDone(draft, session)
  const isByOrder = session.before === 'no session' || session.hasRedFlag
  if (sets.length === 0 && isByOrder) return changeLog(draft, withRestOrdered(draft.document.training, session.on))
  const isScheduled = planOf(draft.document).schedule.days.includes(weekdayOf(session.on))
  const asked = isScheduled ? withPrescribed(draft.document.training, session.on) : draft.document.training
  if (sets.length === 0) return changeLog(draft, { ...asked, unrated: null })
  const unrated = { session: session.id, on: session.on, minutes: Math.round((draft.at - session.startedAt) / minuteMs) }
  // Whoever left, or was stopped by pain, is not held back by one more question.
  changeLog(draft, { ...withDone(asked, session.on, sets), unrated: session.isOver ? null : unrated })
}

function setsDone(draft: Draft<Chart>, session: OpenSession): readonly SetDone[] {
  return session.sets.flatMap(({ direction, exercise, dose, report }) => {
    if (report === null) return []
    return { ladder: ladderOf(direction), dose, work: exerciseOf(draft.content, exercise).work, isFinished: report.finished }
  })
}

/** How hard the whole session was, or null where the client would rather not say. */
export function recordEffort(draft: Draft<Chart>, _conversation: unknown, answer: Answer): void {
  const { unrated } = draft.document.training
  if (unrated === null) return
  const effort = answer === null ? null : Number(answer)
  draft.record('session-effort', 'client', { session: unrated.session, effort, minutes: unrated.minutes })
  changeLog(draft, withEffort(draft.document.training, sessionLoad(effort, unrated.minutes)))
  draft.say(say(draft, 'client').text(effort === null ? 'session.effort-skipped' : 'session.effort-noted'))
}
