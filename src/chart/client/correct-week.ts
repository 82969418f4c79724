// "Sorry, I meant 2" in the weekly check-in: it answers the question before, which is asked anew where it cannot be read.
import { awaitingOf } from '#src/conversation/questions/registry.ts'
import { readMessage, type Reading } from '#src/conversation/reading/read-message.ts'
import type { Chart } from '../chart.ts'
import type { Draft } from '../draft.ts'
import { closePrompt, deliver, openQuestion, takeText, type OpenQuestion } from '../turn.ts'
import { clientParty } from './client-party.ts'
import { planOf } from './plan-facts.ts'

/** True where the words corrected an earlier answer. */
export function correctWeek(draft: Draft<Chart>, text: string, reading: Reading, open: OpenQuestion | null): boolean {
  if (!reading.isCorrection || open?.conversation.flow !== 'weekly') return false
  if (!deliver(draft, clientParty, { type: 'back' })) return false
  const earlier = openQuestion(draft)
  if (earlier === null) return false
  closePrompt(draft, clientParty, null)
  const { lexicon } = draft.language(planOf(draft.document).client.language)
  takeText(draft, clientParty, text, readMessage(text, awaitingOf(earlier.question), lexicon))
  return true
}
