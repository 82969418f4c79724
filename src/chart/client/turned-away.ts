// A client who has not joined yet, while the triage content is not signed as it is: nobody new is taken in.
import { mayTakeIn } from '#src/domain/signature.ts'
import type { Chart } from '../chart.ts'
import { describeSignature } from '../describe-signature.ts'
import type { Draft } from '../draft.ts'
import { tellTherapist } from './alert-message.ts'
import { planOf } from './plan-facts.ts'
import { say } from './say.ts'

/** Whoever has joined once may go on, and come back after leaving. */
export function mayJoin({ document, content }: Draft<Chart>): boolean {
  return document.standing !== 'invited' || mayTakeIn(content.signature)
}

/** The client is sent to the clinic. */
export function turnAway(draft: Draft<Chart>): void {
  draft.say(say(draft, 'client').text('clinic.not-signed'))
  tellTurnedAway(draft)
}

/** The therapist learns that somebody stands at the door. */
export function tellTurnedAway(draft: Draft<Chart>): void {
  if (draft.document.standing !== 'invited') return
  draft.record('turned-away', 'nuchal', { signature: draft.content.signature.kind })
  const { text, words } = say(draft, 'therapist')
  const state = describeSignature(draft.content, words)
  const values = { client: planOf(draft.document).client.name, state, version: draft.content.triage.version }
  tellTherapist(draft, { text: text('enrolment.turned-away', values), buttons: [], urgency: 'reply', alert: null })
}
