// Reminders and check-ins: once a local date, never in a burst, and a question that waits its turn.
import { isStale } from '#src/schedule/is-stale.ts'
import { localDateOf } from '#src/schedule/wall-time.ts'
import type { Chart } from '../chart.ts'
import type { Draft } from '../draft.ts'
import { withTimer, type Timer } from '../timer.ts'
import { closePrompt, push } from '../turn.ts'
import { clientParty } from './client-party.ts'
import { scheduleReminder, scheduleWeekly } from './other-actions.ts'
import { planOf, todayOf } from './plan-facts.ts'

const minuteMs = 60_000
const waitMinutes = 10
/** A question about a sign, or about a call for help, is not talked over. */
const notTalkedOver: ReadonlySet<string> = new Set(['symptom', 'called', 'consent'])

/** One session a local date, none while locked. */
export function mayBeginSession(draft: Draft<Chart>): boolean {
  const { standing, lock, session, lastSessionOn } = draft.document
  return standing === 'active' && lock === null && session === null && lastSessionOn !== todayOf(draft)
}

/** A check-in left open makes room: what it asks is asked in the session. */
export function beginSessionConversation(draft: Draft<Chart>): void {
  closePrompt(draft, clientParty, null)
  draft.converse({ conversations: draft.document.conversations.filter((one) => notTalkedOver.has(one.flow)) })
  push(draft, 'session')
}

export function remind(draft: Draft<Chart>, timer: Timer): void {
  const isLater = timer.about === 'later'
  if (isBusy(draft)) return wait(draft, timer)
  const isMissed = isStale(timer.dueAt, draft.at)
  const hadOne = !isLater && draft.document.lastReminderOn === todayOf(draft)
  const isDue = !isMissed && !hadOne && mayBeginSession(draft) && draft.document.isReachable
  if (isDue) {
    draft.change({ lastReminderOn: todayOf(draft) })
    beginSessionConversation(draft)
  } else {
    draft.record('reminder-skipped', 'nuchal', { dueAt: timer.dueAt, isMissed })
  }
  if (!isLater) scheduleReminder(draft)
}

/** Asked on its own date only: the next session asks for an answer that is missing. */
export function checkIn(draft: Draft<Chart>, timer: Timer): void {
  const { pending, lock, isReachable } = draft.document
  const isToday = localDateOf(timer.dueAt, planOf(draft.document).zone) === todayOf(draft)
  if (!pending || pending.morning !== null || lock || !isReachable || !isToday) return
  if (draft.document.conversations.length > 0) return wait(draft, timer)
  push(draft, 'morning')
}

export function askWeekly(draft: Draft<Chart>, timer: Timer): void {
  const { lock, isReachable, standing } = draft.document
  const isToday = localDateOf(timer.dueAt, planOf(draft.document).zone) === todayOf(draft)
  if (isToday && draft.document.conversations.length > 0) return wait(draft, timer)
  if (isToday && !lock && isReachable && standing === 'active') push(draft, 'weekly')
  scheduleWeekly(draft)
}

function isBusy(draft: Draft<Chart>): boolean {
  return draft.document.session !== null || draft.document.conversations.some((one) => notTalkedOver.has(one.flow))
}

function wait(draft: Draft<Chart>, timer: Timer): void {
  draft.change({ timers: withTimer(draft.document.timers, { ...timer, dueAt: draft.at + waitMinutes * minuteMs }) })
}
