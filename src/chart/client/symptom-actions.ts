// The actions of the symptom's flow: a sign is named, suspected, denied or left open.
import type { Conversation } from '#src/conversation/flow.ts'
import type { Answer } from '#src/conversation/question.ts'
import type { SignId } from '#src/domain/identifier.ts'
import { brandAs } from '#src/domain/identifier.ts'
import { alertLevels, type RedFlag } from '#src/domain/triage.ts'
import type { Chart } from '../chart.ts'
import type { Draft } from '../draft.ts'
import { withoutTimer, withTimer } from '../timer.ts'
import { push, type ActionHandler } from '../turn.ts'
import { raiseFlags } from './raise-flags.ts'
import { say } from './say.ts'
import { flagOf } from './signs.ts'

const minuteMs = 60_000

export const symptomActions: Readonly<Record<string, ActionHandler<Chart>>> = {
  // From now on the signs of the group are in question.
  'choose-group': (draft, _conversation, group) => setOnTop(draft, { group, signs: null }),
  'note-no-sign': (draft, conversation) => {
    draft.record('sign-denied', 'client', { signs: signsInQuestion(draft, conversation).map((flag) => flag.sign) })
    stopWaiting(draft)
    draft.say(say(draft, 'client').text('symptom.noted'))
  },
  'raise-sign': raiseSign,
  'raise-suspected': raiseSuspected,
  'leave-sign-open': leaveOpen,
}

/** Asks about words that may mean a sign, or whether a known one is worse. */
export function askAboutSigns(draft: Draft<Chart>, state: 'confirm' | 'unclear' | 'known', flags: readonly RedFlag[], words: { readonly said: string; readonly matched?: string }): void {
  const top = draft.document.conversations.at(-1)
  // The plain question, which follows every stop, asks the same.
  const isAsked = state === 'unclear' && top?.flow === 'symptom' && top.state === 'ask'
  if (isAsked) draft.converse({ conversations: draft.document.conversations.slice(0, -1) })
  push(draft, 'symptom', state, { signs: flags.map((flag) => flag.sign), ...words })
}

function setOnTop(draft: Draft<Chart>, data: Conversation['data']): void {
  const stack = draft.document.conversations
  const top = stack.at(-1)
  if (top) draft.converse({ conversations: [...stack.slice(0, -1), { ...top, data: { ...top.data, ...data } }] })
}

/** What was written before tells more than what was pressed, and the title of the alert says that. */
function raiseSign(draft: Draft<Chart>, conversation: Conversation, answer: Answer): void {
  const sign = brandAs<SignId>(String(answer))
  stopWaiting(draft)
  const pressed = say(draft, 'therapist').text('alert.pressed', { label: say(draft, 'client').text(`signs.client.${sign}`) })
  raiseFlags(draft, [flagOf(draft, sign)], { words: wordsOf(conversation).words ?? pressed, isConfirmed: true })
}

function raiseSuspected(draft: Draft<Chart>, conversation: Conversation): void {
  stopWaiting(draft)
  raiseFlags(draft, signsInQuestion(draft, conversation), { ...wordsOf(conversation), isConfirmed: true })
}

/** Left without an answer: if a sign was in question it alarms as unconfirmed. */
function leaveOpen(draft: Draft<Chart>, conversation: Conversation): void {
  raiseUnanswered(draft, conversation)
}

export function raiseUnanswered(draft: Draft<Chart>, conversation: Conversation): void {
  stopWaiting(draft)
  const signs = signsInQuestion(draft, conversation)
  const worst = signs.toSorted((a, b) => alertLevels.indexOf(b.level) - alertLevels.indexOf(a.level)).slice(0, 1)
  draft.record('sign-unanswered', 'nuchal', { signs: signs.map((flag) => flag.sign) })
  raiseFlags(draft, Array.isArray(conversation.data.signs) ? signs : worst, { ...wordsOf(conversation), isConfirmed: false })
}

function wordsOf({ data }: Conversation): { readonly words: string | null; readonly matched?: string } {
  const words = typeof data.said === 'string' ? data.said : null
  return typeof data.matched === 'string' ? { words, matched: data.matched } : { words }
}

/** The signs a symptom conversation is about: those suspected, or all of the group chosen. */
export function signsInQuestion(draft: Draft<Chart>, { data }: Conversation): readonly RedFlag[] {
  const ofGroup = draft.content.triage.signs.filter((sign) => sign.group === data.group).map(({ id }) => id)
  const signs = Array.isArray(data.signs) ? data.signs.map((sign) => brandAs<SignId>(String(sign))) : ofGroup
  return signs.map((sign) => flagOf(draft, sign))
}

/** Asked again after a while, and alarmed as unconfirmed if it stays unanswered. */
export function waitForAnswer(draft: Draft<Chart>, conversation: Conversation): void {
  const signs = signsInQuestion(draft, conversation)
  if (signs.length === 0 || draft.document.timers.some((timer) => timer.kind === 'sign-unanswered')) return
  const { unsureAskAgainAfter, unsureAlertAfter } = draft.content.triage.escalation
  // What fits no sign may be any of them.
  const mayBeEmergency = signs.some(({ level, sign }) => level === 'emergency' || sign === 'something-else')
  const minutes = mayBeEmergency ? unsureAlertAfter.emergency : unsureAlertAfter.urgent
  const again = { kind: 'ask-sign-again' as const, about: '', dueAt: draft.at + unsureAskAgainAfter * minuteMs }
  const alarm = { kind: 'sign-unanswered' as const, about: '', dueAt: draft.at + minutes * minuteMs }
  draft.change({ timers: withTimer(withTimer(draft.document.timers, again), alarm) })
}

function stopWaiting(draft: Draft<Chart>): void {
  draft.change({ timers: withoutTimer(withoutTimer(draft.document.timers, 'ask-sign-again'), 'sign-unanswered') })
}
