// After a silence of the network the client is asked again, once: a press may be lost, and after a day a message as well.
import { timeAfterQuiet } from '#src/schedule/quiet-hours.ts'
import type { Chart } from '../chart.ts'
import type { Draft } from '../draft.ts'
import type { EventOf } from '../event.ts'
import { isStillNew, mayHaveLostAnswer } from '../lost-answer.ts'
import { withTimer } from '../timer.ts'
import { bringOn, flushNotes } from '../turn.ts'
import { clientParty } from './client-party.ts'
import { planOf } from './plan-facts.ts'
import { isNotTalkedOver } from './reminders.ts'
import { say } from './say.ts'
import { waitAnewForSilence } from './silence.ts'

const everything = 'everything'

export function hearUnheard(draft: Draft<Chart>, silence: EventOf<'unheard'>): void {
  const { since, until, lost } = silence
  const { contact, isReachable, prompt } = draft.document
  if (contact === null || !isReachable) return
  waitAnewForSilence(draft)
  const isEverything = lost === 'everything' && isSpokenWith(draft.document)
  if (!isEverything && !mayHaveLostAnswer(draft.document, silence)) return
  draft.record('unheard', 'nuchal', { since, until, lost })
  const about = isEverything ? everything : String(prompt?.number)
  const dueAt = mayWake(draft.document) ? draft.at : timeAfterQuiet(draft.at, planOf(draft.document).zone, planOf(draft.document).schedule.quiet)
  if (dueAt > draft.at) return draft.change({ timers: withTimer(draft.document.timers, { kind: 'ask-again', about, dueAt }) })
  if (sayUnheard(draft, about, silence)) bringOn(draft, clientParty)
  flushNotes(draft, clientParty)
}

/** `about`: the number of the question whose answer may be lost, or everything. True where a question has to be asked again. */
export function sayUnheard(draft: Draft<Chart>, about: string, silence?: EventOf<'unheard'>): boolean {
  const { text } = say(draft, 'client')
  const { prompt } = draft.document
  if (about === everything) {
    const { emergencyNumber: number } = planOf(draft.document)
    draft.say(text('common.unheard.everything', { number }))
    return prompt === null || !isStillNew(prompt, silence?.until ?? draft.at, silence?.unsent)
  }
  if (String(prompt?.number) !== about) return false
  draft.say(text('common.unheard.presses'))
  return true
}

/** Whoever has refused or left is not written to, save where a sign of harm is still open. */
function isSpokenWith({ standing, lock, alerts }: Chart): boolean {
  return standing === 'active' || standing === 'invited' || lock !== null || alerts.some(({ level }) => level !== 'routine')
}

/** A question about a sign, or about a call for help, does not wait for the end of the quiet hours. */
function mayWake({ conversations, lock, alerts }: Chart): boolean {
  const isAboutHarm = conversations.some((one) => one.flow !== 'consent' && isNotTalkedOver(one))
  return isAboutHarm || (lock !== null && alerts.some(({ acknowledged }) => acknowledged === null))
}
