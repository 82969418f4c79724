// A break of days: no reminder comes, and the therapist knows of it. Time off counts against the dose as ever.
import type { Conversation, Facts } from '#src/conversation/flow.ts'
import type { LocalDate } from '#src/domain/identifier.ts'
import { checkInAt } from '#src/schedule/check-in-at.ts'
import { addDays } from '#src/schedule/wall-time.ts'
import { pauseReasons, type Chart, type PauseReason } from '../chart.ts'
import type { Draft } from '../draft.ts'
import { withoutTimer, withTimer } from '../timer.ts'
import type { ActionHandler } from '../turn.ts'
import { tellTherapist } from './alert-message.ts'
import { leaveTraining } from './leave-training.ts'
import { planOf, todayOf } from './plan-facts.ts'
import { say } from './say.ts'
import { scheduleReminder } from './when.ts'

/** Our choice: how often a client whose break has no end is asked whether it is over. */
const askAgainAfterDays = 7

export const pauseActions: Readonly<Record<string, ActionHandler<Chart>>> = {
  'begin-pause': beginPause,
  'end-pause': (draft) => {
    endPause(draft)
    const next = draft.document.timers.find(({ kind }) => kind === 'reminder')
    const { text, time } = say(draft, 'client')
    draft.say(text('pause.welcome-back', { time: next ? time(next.dueAt) : '–' }))
  },
  'say-take-your-time': (draft) => draft.say(say(draft, 'client').text('pause.take-your-time')),
  'say-not-paused': (draft) => draft.say(say(draft, 'client').text('pause.left')),
}

export function pauseFacts({ document }: Draft<Chart>, { data }: Conversation): Facts {
  return { isIll: (document.pause?.reason ?? data.why) === 'ill' }
}

/** Whether a break is running today. */
export function isPaused(draft: Draft<Chart>): boolean {
  const { pause } = draft.document
  return pause !== null && (pause.until === null || todayOf(draft) < pause.until)
}

function beginPause(draft: Draft<Chart>, { data }: Conversation): void {
  const reason = reasonOf(draft, data.why)
  const days = Number(data['how-long'])
  const until = Number.isInteger(days) ? addDays(todayOf(draft), days) : null
  draft.change({ pause: { reason, since: draft.document.pause?.since ?? draft.at, until } })
  draft.record('pause', 'client', { reason, until })
  draft.change({ timers: withoutTimer(draft.document.timers, 'reminder') })
  scheduleReminder(draft)
  leaveTraining(draft)
  if (until === null) askAgainLater(draft)
  else draft.change({ timers: withoutTimer(draft.document.timers, 'pause-over') })
  tellBoth(draft, reason, until)
}

/** A break that goes on keeps its reason. */
function reasonOf(draft: Draft<Chart>, why: unknown): PauseReason {
  return pauseReasons.find((reason) => reason === why) ?? draft.document.pause?.reason ?? 'other'
}

function tellBoth(draft: Draft<Chart>, reason: PauseReason, until: LocalDate | null): void {
  const { text, time } = say(draft, 'client')
  const next = draft.document.timers.find(({ kind }) => kind === 'reminder')
  draft.say(next ? text('pause.until', { time: time(next.dueAt) }) : text('pause.open'))
  const { client } = planOf(draft.document)
  const therapist = say(draft, 'therapist')
  const told = therapist.text('alert.paused', { client: client.name, reason: therapist.text(`alert.pause-reason.${reason}`), until: until ?? 'open' })
  tellTherapist(draft, { text: told, buttons: [], urgency: 'reply', alert: null })
}

function askAgainLater(draft: Draft<Chart>): void {
  const { zone, schedule } = planOf(draft.document)
  const dueAt = checkInAt({ on: addDays(todayOf(draft), askAgainAfterDays), zone, quiet: schedule.quiet })
  draft.change({ timers: withTimer(draft.document.timers, { kind: 'pause-over', about: '', dueAt }) })
}

/** Nobody knew how long it would be: asked again, week after week. True where the client is asked now. */
export function askWhetherOver(draft: Draft<Chart>): boolean {
  if (draft.document.pause === null || draft.document.standing !== 'active') return false
  askAgainLater(draft)
  return draft.document.lock === null && draft.document.isReachable
}

export function endPause(draft: Draft<Chart>): void {
  if (draft.document.pause === null) return
  draft.record('pause-ended', 'client', { since: draft.document.pause.since })
  draft.change({ pause: null, timers: withoutTimer(draft.document.timers, 'pause-over') })
  scheduleReminder(draft)
}

/** For the therapist: since when, and why; nothing where no break is running. */
export function describePause(draft: Draft<Chart>): readonly string[] {
  const { pause } = draft.document
  if (pause === null || !isPaused(draft)) return []
  const { text, time } = say(draft, 'therapist')
  return [text('look.paused', { since: time(pause.since), reason: text(`alert.pause-reason.${pause.reason}`), until: pause.until ?? 'open' })]
}
