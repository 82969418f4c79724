// What a client and their therapist write to each other, apart from the coaching questions.
import type { Conversation } from '#src/conversation/flow.ts'
import type { Answer } from '#src/conversation/question.ts'
import { isOnCover, nextCoverAt } from '#src/schedule/cover.ts'
import type { Chart } from '../chart.ts'
import { coverOf } from '../desk-card.ts'
import type { Draft } from '../draft.ts'
import type { Actor, ToldOf } from '../event.ts'
import type { ActionHandler, Values } from '../turn.ts'
import { actButton, tellDesk, tellTherapist } from './alert-message.ts'
import { planOf, therapistNameOf } from './plan-facts.ts'
import { say } from './say.ts'

export const messageActions: Readonly<Record<string, ActionHandler<Chart>>> = {
  'send-message': (draft, _conversation, answer: Answer) => sendMessage(draft, String(answer)),
  'say-nothing-sent': (draft) => draft.say(say(draft, 'client').text('message.nothing-sent')),
}

export const messageValues: Readonly<Record<string, (draft: Draft<Chart>, conversation: Conversation) => Values>> = {
  'message.text': (draft) => ({ therapist: therapistNameOf(draft.document), number: planOf(draft.document).emergencyNumber }),
}

export function sendMessage(draft: Draft<Chart>, written: string): void {
  const plan = planOf(draft.document)
  draft.record('message', 'client', { text: written })
  const { text } = say(draft, 'therapist')
  tellTherapist(draft, {
    text: text('alert.message', { client: plan.client.name, words: written }),
    buttons: [[actButton(draft, 'answer', 'now', text('alert.press.answer'))]],
    urgency: 'reply',
    alert: null,
  })
  draft.say(sentWords(draft))
}

/** When it may be read is said, since nobody may be there. */
function sentWords(draft: Draft<Chart>): string {
  const { text, time } = say(draft, 'client')
  const { therapist } = draft.document
  const { emergencyNumber, outOfHoursNumber } = planOf(draft.document)
  const values = { therapist: therapistNameOf(draft.document), number: emergencyNumber, outOfHours: outOfHoursNumber }
  const cover = therapist === null ? null : coverOf(therapist)
  if (cover === null) return text('message.sent-nobody', values)
  if (isOnCover(cover, draft.at)) return text('message.sent', values)
  const next = nextCoverAt(cover, draft.at)
  return next === null ? text('message.sent-nobody', values) : text('message.sent-off-duty', { ...values, time: time(next) })
}

/** Asks the therapist who pressed for the answer. */
export function askForAnswer(draft: Draft<Chart>, by: Actor): string {
  draft.tell(by.desk, { kind: 'answer', chart: draft.document.id, client: planOf(draft.document).client.name })
  return ''
}

/** A therapist's words come by themselves and leave the open question as it is. */
export function hearAnswered(draft: Draft<Chart>, { by, text: words }: ToldOf<'answered'>): void {
  const { contact, plan } = draft.document
  if (plan === null) return
  draft.record('message', by.name, { text: words })
  const { text } = say(draft, 'therapist')
  if (contact === null) return tellDesk(draft, by.desk, { text: text('alert.answer-undelivered', { client: plan.client.name }), buttons: [], urgency: 'reply', alert: null })
  draft.send(contact, { text: say(draft, 'client').text('message.answer', { name: by.name, words }), buttons: [] }, 'reply')
  tellDesk(draft, by.desk, { text: text('alert.answered', { client: plan.client.name }), buttons: [], urgency: 'reply', alert: null })
}
