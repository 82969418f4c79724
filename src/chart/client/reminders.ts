// Reminders and check-ins: once a local date, never in a burst, and a question that waits its turn.
import type { Conversation } from '#src/conversation/flow.ts'
import { isStale } from '#src/schedule/is-stale.ts'
import { isInQuiet } from '#src/schedule/quiet-hours.ts'
import { localDateOf, wallTimeOf } from '#src/schedule/wall-time.ts'
import type { Chart } from '../chart.ts'
import type { Draft } from '../draft.ts'
import { withTimer, type Timer } from '../timer.ts'
import { closePrompt, push } from '../turn.ts'
import { clientParty } from './client-party.ts'
import { countPrescribed } from './count-training.ts'
import { planOf, todayOf } from './plan-facts.ts'
import { isAnythingDue } from './prescribe.ts'
import { askWhetherOver, endPause, isPaused } from './pause.ts'
import { scheduleReminder, scheduleWeekly } from './when.ts'

const minuteMs = 60_000
const waitMinutes = 10
/**
 * A question about a sign, or about a call for help, is not talked over. Whether anything at all is new or worse is: the
 * session begins with the same question, and a client who never answered it would not be reminded again.
 */
export function isNotTalkedOver({ flow, state }: Conversation): boolean {
  return flow === 'called' || flow === 'consent' || (flow === 'symptom' && state !== 'ask')
}

/** One session a local date, none while locked. */
export function mayBeginSession(draft: Draft<Chart>): boolean {
  const { standing, lock, session, lastSessionOn } = draft.document
  return standing === 'active' && lock === null && session === null && lastSessionOn !== todayOf(draft)
}

export function isCheckIn(flow: string): boolean {
  return flow === 'morning' || flow === 'weekly'
}

/** How hard a session was that is over: nothing waits for the answer. */
function isAfterthought({ flow, state }: Conversation): boolean {
  return flow === 'session' && state === 'effort'
}

/** What a new session takes the place of. */
export function givesWay(conversation: Conversation): boolean {
  return isCheckIn(conversation.flow) || isAfterthought(conversation)
}

/** A check-in left open makes room: what it asks is asked in the session. Whoever trains has ended their break. */
export function beginSessionConversation(draft: Draft<Chart>): void {
  endPause(draft)
  closePrompt(draft, clientParty, null)
  draft.converse({ conversations: draft.document.conversations.filter(isNotTalkedOver) })
  push(draft, 'session')
}

export function remind(draft: Draft<Chart>, timer: Timer): void {
  const isLater = timer.about === 'later'
  if (!isLater) countScheduledDay(draft, timer)
  if (isBusy(draft) && mayWait(draft, timer)) return wait(draft, timer)
  const isMissed = isStale(timer.dueAt, draft.at)
  const hadOne = !isLater && draft.document.lastReminderOn === todayOf(draft)
  const isDue = !isBusy(draft) && !isMissed && !hadOne && mayBeginSession(draft) && draft.document.isReachable
  if (isDue) {
    draft.change({ lastReminderOn: todayOf(draft) })
    beginSessionConversation(draft)
  } else {
    draft.record('reminder-skipped', 'nuchal', { dueAt: timer.dueAt, isMissed })
  }
  if (!isLater) scheduleReminder(draft)
}

/** A day on which nobody was there to remind is not held against the client; one on which nothing is due is a rest. */
function countScheduledDay(draft: Draft<Chart>, timer: Timer): void {
  if (!isStale(timer.dueAt, draft.at) && mayBeginSession(draft) && isAnythingDue(draft)) countPrescribed(draft)
}

/** Asked on its own date only: the next session asks for an answer that is missing. */
export function checkIn(draft: Draft<Chart>, timer: Timer): void {
  const { pending, lock, isReachable } = draft.document
  const isToday = localDateOf(timer.dueAt, planOf(draft.document).zone) === todayOf(draft)
  if (!pending || pending.morning !== null || lock || !isReachable || !isToday) return
  if (isSpeaking(draft)) return mayWait(draft, timer) ? wait(draft, timer) : undefined
  putOnTop(draft, 'morning')
}

export function askWeekly(draft: Draft<Chart>, timer: Timer): void {
  const { lock, isReachable, standing } = draft.document
  const isToday = localDateOf(timer.dueAt, planOf(draft.document).zone) === todayOf(draft)
  if (isToday && isSpeaking(draft) && mayWait(draft, timer)) return wait(draft, timer)
  const isAsked = isToday && !isSpeaking(draft) && !lock && isReachable && standing === 'active' && !isPaused(draft)
  if (isAsked) putOnTop(draft, 'weekly')
  scheduleWeekly(draft)
}

/** A break without an end: whether it is over is asked once a week, where nothing else is open. */
export function askAboutPause(draft: Draft<Chart>): void {
  if (askWhetherOver(draft) && !isSpeaking(draft)) push(draft, 'pause', 'back')
}

function isBusy(draft: Draft<Chart>): boolean {
  return draft.document.session !== null || draft.document.conversations.some(isNotTalkedOver)
}

/** A question of today is waited for; one that was left open on an earlier date is not. */
function isSpeaking(draft: Draft<Chart>): boolean {
  const { conversations, prompt } = draft.document
  const isOfToday = prompt !== null && localDateOf(prompt.askedAt, planOf(draft.document).zone) === todayOf(draft)
  return isBusy(draft) || (isOfToday && conversations.some((one) => !isAfterthought(one)))
}

/** Whether anything is new or worse stays to be asked; what else was left open is over. */
function putOnTop(draft: Draft<Chart>, flow: 'morning' | 'weekly'): void {
  closePrompt(draft, clientParty, null)
  draft.converse({ conversations: draft.document.conversations.filter((one) => one.flow === 'symptom') })
  push(draft, flow)
}

/** What waits its turn waits on its own date only, and never into the quiet hours. */
function mayWait(draft: Draft<Chart>, timer: Timer): boolean {
  const { zone, schedule } = planOf(draft.document)
  const next = draft.at + waitMinutes * minuteMs
  return localDateOf(next, zone) === localDateOf(timer.dueAt, zone) && !isInQuiet(wallTimeOf(next, zone), schedule.quiet)
}

function wait(draft: Draft<Chart>, timer: Timer): void {
  draft.change({ timers: withTimer(draft.document.timers, { ...timer, dueAt: draft.at + waitMinutes * minuteMs }) })
}
