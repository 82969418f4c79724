// When the client is asked: reminders and weekly questions at their own wall time.
import type { Conversation, Facts } from '#src/conversation/flow.ts'
import type { Instant } from '#src/domain/identifier.ts'
import { weekdays, type Plan, type Weekday } from '#src/domain/plan.ts'
import { checkInAt } from '#src/schedule/check-in-at.ts'
import { describeInstant } from '#src/schedule/describe-instant.ts'
import { nextReminderAt } from '#src/schedule/next-reminder.ts'
import { isInQuiet } from '#src/schedule/quiet-hours.ts'
import { addDays, instantOf, localDateOf } from '#src/schedule/wall-time.ts'
import type { Chart } from '../chart.ts'
import type { Draft } from '../draft.ts'
import { withoutTimer, withTimer } from '../timer.ts'
import type { ActionHandler, Values } from '../turn.ts'
import { tellTherapist } from './alert-message.ts'
import { planOf, todayOf } from './plan-facts.ts'
import { say } from './say.ts'

const weekDays = 7

/** The next reminder at the client's wall time, at most one a local date; none before a break is over. */
export function nextReminderOf(draft: Draft<Chart>): Instant | null {
  const { schedule, zone } = planOf(draft.document)
  const { lastReminderOn, pause, standing } = draft.document
  if (standing !== 'active' || pause?.until === null) return null
  const after = pause === null ? draft.at : Math.max(draft.at, instantOf(pause.until, '00:00', zone) - 1)
  return nextReminderAt({ schedule, zone, after, lastOn: lastReminderOn })
}

export function scheduleReminder(draft: Draft<Chart>): void {
  const dueAt = nextReminderOf(draft)
  const others = withoutTimer(draft.document.timers, 'reminder', '')
  draft.change({ timers: dueAt === null ? others : withTimer(others, { kind: 'reminder', about: '', dueAt }) })
}

export function scheduleWeekly(draft: Draft<Chart>): void {
  const { schedule, zone } = planOf(draft.document)
  const dueAt = checkInAt({ on: addDays(todayOf(draft), weekDays), zone, quiet: schedule.quiet })
  draft.change({ timers: withTimer(draft.document.timers, { kind: 'weekly', about: '', dueAt }) })
}

export const whenActions: Readonly<Record<string, ActionHandler<Chart>>> = {
  'change-times': changeTimes,
  'move-zone': moveZone,
  'say-times-kept': (draft) => draft.say(say(draft, 'client').text('times.kept')),
  'say-day-count': (draft) => draft.say(say(draft, 'client').text('times.day-count', { count: planOf(draft.document).schedule.days.length })),
}

export function timesFacts(draft: Draft<Chart>, { data }: Conversation): Facts {
  const { days, quiet } = scheduleWith(draft, data)
  return {
    isDayCountRight: days.length === planOf(draft.document).schedule.days.length,
    isTimeQuiet: isInQuiet(scheduleWith(draft, data).time, quiet),
  }
}

/** The plan's schedule with what has been answered so far. */
function scheduleWith(draft: Draft<Chart>, { days, time }: Conversation['data']): Plan['schedule'] {
  const { schedule } = planOf(draft.document)
  return {
    ...schedule,
    ...(Array.isArray(days) ? { days: weekdays.filter((day) => (days as readonly Weekday[]).includes(day)) } : {}),
    ...(typeof time === 'string' ? { time } : {}),
  }
}

export const whenValues: Readonly<Record<string, (draft: Draft<Chart>, conversation: Conversation) => Values>> = {
  'times.what': (draft) => describeSchedule(draft, planOf(draft.document).schedule),
  'times.days': (draft) => ({ ...describeSchedule(draft, planOf(draft.document).schedule), count: planOf(draft.document).schedule.days.length }),
  'times.review': (draft, { data }) => describeSchedule(draft, scheduleWith(draft, data)),
  'zone.zone': (draft) => ({ zone: planOf(draft.document).zone }),
  'zone.review': (draft, { data }) => ({ zone: String(data.zone), now: describeInstant(draft.at, String(data.zone), say(draft, 'client').words.language) }),
}

function describeSchedule(draft: Draft<Chart>, { days, time }: Plan['schedule']): Values {
  const { text } = say(draft, 'client')
  return { days: days.map((day) => text(`common.weekday.${day}`)).join(', '), time }
}

function changeTimes(draft: Draft<Chart>, { data }: Conversation): void {
  const schedule = scheduleWith(draft, data)
  changePlans(draft, { schedule })
  draft.record('times-changed', 'client', { days: schedule.days, time: schedule.time })
  scheduleReminder(draft)
  sayNext(draft)
  const { client } = planOf(draft.document)
  const { text } = say(draft, 'therapist')
  const days = schedule.days.map((day) => text(`common.weekday.${day}`)).join(', ')
  tellTherapist(draft, { text: text('alert.times-changed', { client: client.name, days, time: schedule.time }), buttons: [], urgency: 'reply', alert: null })
}

/** Whatever was due at a wall time is due at the same wall time there; a local date has at most one reminder. */
function moveZone(draft: Draft<Chart>, { data }: Conversation): void {
  const before = planOf(draft.document).zone
  const zone = String(data.zone)
  changePlans(draft, { zone })
  draft.record('zone-moved', 'client', { from: before, to: zone })
  scheduleReminder(draft)
  moveTimers(draft, before, zone)
  sayNext(draft)
  const text = say(draft, 'therapist').text('alert.zone-moved', { client: planOf(draft.document).client.name, from: before, to: zone })
  tellTherapist(draft, { text, buttons: [], urgency: 'reply', alert: null })
}

function moveTimers(draft: Draft<Chart>, from: string, to: string): void {
  const { quiet } = planOf(draft.document).schedule
  const moved = draft.document.timers.map((timer) => {
    const on = localDateOf(timer.dueAt, from)
    if (timer.kind === 'check-in' || timer.kind === 'weekly' || timer.kind === 'pause-over') return { ...timer, dueAt: checkInAt({ on, zone: to, quiet }) }
    return timer.kind === 'session-end' ? { ...timer, dueAt: instantOf(on, '00:00', to) } : timer
  })
  // "Later today" was said of a day that is over or has begun anew.
  draft.change({ timers: withoutTimer(moved, 'reminder', 'later') })
}

/** In force, and in a plan that waits for the open session to end. */
function changePlans(draft: Draft<Chart>, patch: Partial<Pick<Plan, 'zone' | 'schedule'>>): void {
  const { amendment } = draft.document
  draft.change({ plan: { ...planOf(draft.document), ...patch } })
  if (amendment) draft.change({ amendment: { ...amendment, plan: { ...amendment.plan, ...patch } } })
}

function sayNext(draft: Draft<Chart>): void {
  const { text, time } = say(draft, 'client')
  const next = draft.document.timers.find(({ kind }) => kind === 'reminder')
  draft.say(next ? text('times.changed', { time: time(next.dueAt) }) : text('times.changed-paused'))
}
