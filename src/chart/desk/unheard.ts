// After a silence of the network a therapist is asked again, and after a day told that clients' messages may be lost.
import type { Desk } from '../desk.ts'
import type { Draft } from '../draft.ts'
import type { EventOf } from '../event.ts'
import { mayHaveLostAnswer } from '../lost-answer.ts'
import { bringOn } from '../turn.ts'
import { deskParty } from './desk-party.ts'

export function hearUnheard(draft: Draft<Desk>, silence: EventOf<'unheard'>): void {
  const { since, until, lost } = silence
  const { contact, isReachable, language } = draft.document
  if (contact === null || !isReachable) return
  const isAsked = mayHaveLostAnswer(draft.document, silence)
  if (lost === 'presses' && !isAsked) return
  draft.record('unheard', 'nuchal', { since, until, lost })
  draft.say(draft.words(language).say(`desk.unheard.${lost}`))
  if (isAsked) bringOn(draft, deskParty)
}
