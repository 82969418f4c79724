// What a due timer does. A wake-up is only a hint: what is in the chart and due is fired, in the order in which it fell due.
import { minuteMs } from '#src/schedule/wall-time.ts'
import type { Chart } from '../chart.ts'
import type { Draft } from '../draft.ts'
import type { EventOf } from '../event.ts'
import { timerKinds, withTimer, type Timer, type TimerKind } from '../timer.ts'
import { bringOn, closePrompt, deliver, flushNotes } from '../turn.ts'
import { clientParty } from './client-party.ts'
import { closeSession } from './close-session.ts'
import { findAlert, reopen, resend } from './escalate.ts'
import { describePause } from './pause.ts'
import { planOf, protocolOf } from './plan-facts.ts'
import { raiseRoutine } from './raise-routine.ts'
import { askAboutPause, askWeekly, checkIn, remind } from './reminders.ts'
import { remindOfRetest } from './retest.ts'
import { say } from './say.ts'
import { changeSession } from './session-state.ts'
import { pauseForSilence, waitForPause } from './silence.ts'
import { askForReview } from './supervision.ts'
import { raiseUnanswered } from './symptom-actions.ts'
import { sayUnheard } from './unheard.ts'

/** True where the conversation has to be brought on afterwards. */
type Firing = (draft: Draft<Chart>, timer: Timer) => boolean

const firings: Record<TimerKind, Firing> = {
  reminder: (draft, timer) => asks(draft, () => remind(draft, timer)),
  'check-in': (draft, timer) => asks(draft, () => checkIn(draft, timer)),
  weekly: (draft, timer) => asks(draft, () => askWeekly(draft, timer)),
  silence: fireSilence,
  'session-end': endAtMidnight,
  'resend-alert': (draft, timer) => quiet(() => resend(draft, timer.about)),
  'contact-due': (draft, timer) => quiet(() => reopen(draft, timer.about)),
  'ask-called': askCalledAgain,
  'ask-sign-again': () => true,
  'sign-unanswered': fireUnanswered,
  absence: (draft) => quiet(() => tellAbsence(draft)),
  supervision: (draft) => quiet(() => askForReview(draft)),
  retest: (draft, timer) => quiet(() => remindOfRetest(draft, timer)),
  'pause-over': (draft) => asks(draft, () => askAboutPause(draft)),
  'ask-again': (draft, timer) => sayUnheard(draft, timer.about),
}

/** At the same instant in the order of the kinds: the morning is asked before the week. */
function compareTimers(a: Timer, b: Timer): number {
  return a.dueAt - b.dueAt || timerKinds.indexOf(a.kind) - timerKinds.indexOf(b.kind)
}

const ofUseOnlyThen: ReadonlySet<TimerKind> = new Set(['reminder', 'check-in', 'weekly', 'pause-over'])

/** Asks somebody who seems silent. */
const ofSilence: ReadonlySet<TimerKind> = new Set(['silence', 'ask-called', 'ask-sign-again'])
/** Our choice; what waits for silence begins anew anyway once the network is heard again. */
const lookAgainMs = 5 * minuteMs

/**
 * While no network is heard, whoever seems silent may have answered, and another question would only take the place of the one
 * whose answer is on its way. Alerts go on, as they may still go out; only where one has arrived at nobody and is still owed
 * to everybody, more copies would add nothing but a crowd for other alerts to stand in.
 */
function waitsForNetwork(chart: Chart, { kind, about }: Timer): boolean {
  return ofSilence.has(kind) || (kind === 'resend-alert' && findAlert(chart, about)?.hasReachedNobody === true)
}

export function wake(draft: Draft<Chart>, { isDeaf }: EventOf<'wake'>): void {
  for (;;) {
    const due = draft.document.timers.filter((timer) => timer.dueAt <= draft.at).toSorted(compareTimers)[0]
    if (!due) return
    const timers = draft.document.timers.filter((timer) => timer !== due)
    if (isDeaf === true && waitsForNetwork(draft.document, due)) {
      draft.change({ timers: withTimer(timers, { ...due, dueAt: draft.at + lookAgainMs }) })
      continue
    }
    draft.change({ timers })
    draft.isReminder = ofUseOnlyThen.has(due.kind)
    if (firings[due.kind](draft, due)) bringOn(draft, clientParty)
    flushNotes(draft, clientParty)
  }
}

/** Brings the conversation on only if something was put on top. */
function asks(draft: Draft<Chart>, fire: () => void): boolean {
  const before = draft.document.conversations
  fire()
  return draft.document.conversations !== before
}

function quiet(fire: () => void): boolean {
  fire()
  return false
}

function fireSilence(draft: Draft<Chart>, timer: Timer): boolean {
  if (timer.about === 'pause') return quiet(() => pauseForSilence(draft))
  draft.say(say(draft, 'client').text('session.still-there'))
  bringOn(draft, clientParty)
  waitForPause(draft)
  return false
}

/** A session left open ends at the client's midnight; what was answered counts. */
function endAtMidnight(draft: Draft<Chart>): boolean {
  const { conversations } = draft.document
  const index = conversations.findIndex((one) => one.flow === 'session')
  if (index < 0) return quiet(() => closeWithoutConversation(draft))
  // A question about a sign that lies on top stays open on its own; it is not asked anew in the night.
  const above = conversations.slice(index + 1)
  if (above.length === 0) closePrompt(draft, clientParty, null)
  draft.converse({ conversations: conversations.slice(0, index + 1) })
  draft.say(say(draft, 'client').text('session.ended-at-midnight'))
  deliver(draft, clientParty, { type: 'close' })
  bringOn(draft, clientParty)
  draft.converse({ conversations: [...draft.document.conversations, ...above] })
  return false
}

/** Its conversation was of a flow that is no more. */
function closeWithoutConversation(draft: Draft<Chart>): void {
  if (draft.document.session === null) return
  changeSession(draft, { endedEarly: true, isOver: true })
  closeSession(draft)
}

/** Once, also where both times for it have passed meanwhile. */
function askCalledAgain(draft: Draft<Chart>): boolean {
  draft.change({ timers: draft.document.timers.filter(({ kind, dueAt }) => kind !== 'ask-called' || dueAt > draft.at) })
  return draft.document.conversations.at(-1)?.flow === 'called'
}

function fireUnanswered(draft: Draft<Chart>): boolean {
  const conversation = draft.document.conversations.findLast((one) => one.flow === 'symptom')
  if (!conversation) return false
  closePrompt(draft, clientParty, null)
  draft.converse({ conversations: draft.document.conversations.filter((one) => one !== conversation) })
  raiseUnanswered(draft, conversation)
  return true
}

function tellAbsence(draft: Draft<Chart>): void {
  const { easeAfterDays } = protocolOf(planOf(draft.document), draft.content).absence
  const title = say(draft, 'therapist').text('alert.absent', { days: easeAfterDays })
  raiseRoutine(draft, { title: [title, ...describePause(draft)].join(' '), ladder: null, request: null })
}
