// What a therapist's desk says of the triage content's signature, and whether anybody may be enrolled under it.
import { mayTakeIn } from '#src/domain/signature.ts'
import { describeSignature } from '../describe-signature.ts'
import type { Desk } from '../desk.ts'
import type { Draft } from '../draft.ts'

export function saySignature(draft: Draft<Desk>): void {
  draft.say(describeSignature(draft.content, draft.words(draft.document.language)))
}

/** False, and it is said why and what has to be done, where nobody may be enrolled. */
export function mayEnrol(draft: Draft<Desk>): boolean {
  const { content } = draft
  if (mayTakeIn(content.signature)) return true
  const words = draft.words(draft.document.language)
  draft.say(words.say('enrolment.not-signed', { state: describeSignature(content, words), version: content.triage.version }))
  return false
}
