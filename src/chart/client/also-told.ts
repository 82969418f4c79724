// Everything about a set in one sentence: "done, pain 2, no wobble, 3 left".
import type { Answer } from '#src/conversation/question.ts'
import type { Reading } from '#src/conversation/reading/read-message.ts'
import type { Chart } from '../chart.ts'
import type { Draft } from '../draft.ts'
import { bringOn, closePrompt, deliver, openQuestion, walkOn } from '../turn.ts'
import { clientParty } from './client-party.ts'
import { say } from './say.ts'

/**
 * "Could not finish it, pain 4" says of the open set that it was not whole, which a number alone would not. True where that
 * was said, and was taken.
 */
export function takeUnfinished(draft: Draft<Chart>, reading: Reading): boolean {
  const open = openQuestion(draft)?.conversation
  if (!reading.alsoTold.isUnfinished || open?.flow !== 'session' || open.state !== 'set') return false
  closePrompt(draft, clientParty, null)
  deliver(draft, clientParty, { type: 'answer', value: 'unfinished' })
  if (typeof reading.value === 'number') {
    deliver(draft, clientParty, { type: 'answer', value: reading.value })
    takeAlsoTold(draft, reading)
  }
  bringOn(draft, clientParty)
  return true
}

/** What may be the same as before: a set's answers, which the set before has as well. */
const sameInSet = { pain: 'pain', control: 'control', reserve: 'reserve' } as const

/**
 * "Same as before", to a question about a set, is what the set before was answered with; it is read back. Without a set before
 * in this session, or to any other question, it is asked again. True where it was taken.
 */
export function takeSameAsBefore(draft: Draft<Chart>, reading: Reading): boolean {
  const open = openQuestion(draft)?.conversation
  const state = sameInSet[open?.state as keyof typeof sameInSet]
  const last = draft.document.session?.sets.findLast((set) => set.report !== null)
  const before = last?.corrected ?? last?.report ?? null
  if (!reading.sameAsBefore || open?.flow !== 'session' || state === undefined || before === null) return false
  const value = before[state]
  if (value === null) return false
  const { text } = say(draft, 'client')
  closePrompt(draft, clientParty, null)
  deliver(draft, clientParty, { type: 'answer', value })
  const worded = typeof value === 'string' ? text(`common.control.${value}`) : String(value)
  draft.say(text('session.taken-together', { what: `${text(`session.corrected.of.${state}`)}: ${worded}` }))
  bringOn(draft, clientParty)
  return true
}

/** Answers the questions about the set that the same message has answered, and says what was taken. */
export function takeAlsoTold(draft: Draft<Chart>, { value, alsoTold }: Reading): void {
  const { text } = say(draft, 'client')
  const taken: string[] = []
  const take = (state: 'control' | 'reserve', answer: Answer, worded: string): void => {
    walkOn(draft, clientParty)
    const open = openQuestion(draft)?.conversation
    if (answer === null || open?.flow !== 'session' || open.state !== state) return
    deliver(draft, clientParty, { type: 'answer', value: answer })
    taken.push(`${text(`session.corrected.of.${state}`)}: ${worded}`)
  }
  const { control, reserve } = alsoTold
  take('control', control, control === null ? '' : text(`common.control.${control}`))
  take('reserve', reserve, String(reserve))
  if (taken.length === 0) return
  const first = typeof value === 'number' ? [`${text('session.corrected.of.pain')}: ${value}`] : []
  draft.say(text('session.taken-together', { what: [...first, ...taken].join('. ') }))
}
