// The client takes back their agreement: nothing more is asked, what was told is kept, and the therapist is told.
import type { Conversation } from '#src/conversation/flow.ts'
import type { Answer } from '#src/conversation/question.ts'
import type { Chart } from '../chart.ts'
import type { Draft } from '../draft.ts'
import type { TimerKind } from '../timer.ts'
import { push, type ActionHandler, type Values } from '../turn.ts'
import { leaveTraining } from './leave-training.ts'
import { planOf, therapistNameOf } from './plan-facts.ts'
import { raiseRoutine } from './raise-routine.ts'
import { say } from './say.ts'

/** What goes on for somebody who has left: an alert stays open until a person has dealt with it. */
const stays: ReadonlySet<TimerKind> = new Set(['resend-alert', 'contact-due', 'ask-called', 'ask-sign-again', 'sign-unanswered'])

export const withdrawActions: Readonly<Record<string, ActionHandler<Chart>>> = {
  withdraw,
  'ask-pause': (draft) => push(draft, 'pause'),
  'say-not-withdrawn': (draft) => draft.say(say(draft, 'client').text('withdrawal.stays')),
}

export const withdrawValues: Readonly<Record<string, (draft: Draft<Chart>) => Values>> = {
  'withdrawal.reason': (draft) => ({ therapist: therapistNameOf(draft.document) }),
}

function withdraw(draft: Draft<Chart>, _conversation: Conversation, answer: Answer): void {
  const reason = typeof answer === 'string' ? answer.trim() : ''
  // What comes next time is no longer of interest.
  const notes = draft.notes.length
  leaveTraining(draft)
  draft.notes.splice(notes)
  draft.change({
    standing: 'withdrawn',
    pause: null,
    timers: draft.document.timers.filter(({ kind }) => stays.has(kind)),
  })
  draft.record('consent', 'client', { isGiven: false, reason })
  const { emergencyNumber } = planOf(draft.document)
  draft.say(say(draft, 'client').text('withdrawal.done', { therapist: therapistNameOf(draft.document), number: emergencyNumber }))
  const title = say(draft, 'therapist').text(reason === '' ? 'alert.withdrawn' : 'alert.withdrawn-because', { reason })
  raiseRoutine(draft, { title, ladder: null, request: null })
}
