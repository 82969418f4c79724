// What happens when a step of ours fails: the person is told, the therapist gets the words, and nothing else is changed. A
// mistake of ours must not swallow a message that may have been about a symptom.
import type { Chart } from './chart.ts'
import type { Desk } from './desk.ts'
import { Draft, type Surroundings } from './draft.ts'
import type { Event } from './event.ts'
import type { AnyDocument } from './head.ts'
import type { StepResult } from './step.ts'
import type { Instant } from '#src/domain/identifier.ts'

/** Null where nobody waits for an answer: the failure is the operator's business alone. */
export function failSafe(document: AnyDocument, event: Event, at: Instant, around: Surroundings): StepResult | null {
  if (event.kind !== 'message' && event.kind !== 'press') return null
  if (document.kind === 'chart') return answerClient(new Draft(document, event, at, around), event.kind === 'message' ? event.text : null)
  return document.kind === 'desk' ? answerTherapist(new Draft(document, event, at, around)) : null
}

function answerClient(draft: Draft<Chart>, text: string | null): StepResult {
  const { contact, plan, therapist } = draft.document
  const number = plan?.emergencyNumber ?? '112'
  if (contact) draft.send(contact, { text: draft.words(plan?.client.language ?? '').say('common.failed', { number }), buttons: [] }, 'alert')
  if (therapist) {
    const said = draft.words('').say('alert.failed', { client: plan?.client.name ?? '', words: text ?? '–' })
    draft.tell(therapist.desk, { kind: 'show', shown: { text: said, buttons: [], urgency: 'alert', alert: null } })
  }
  draft.record('failed', 'nuchal', { event: draft.eventId, text })
  return result(draft)
}

function answerTherapist(draft: Draft<Desk>): StepResult {
  const { contact, language } = draft.document
  if (contact) draft.send(contact, { text: draft.words(language).say('desk.failed'), buttons: [] }, 'reply')
  draft.record('failed', 'nuchal', { event: draft.eventId })
  return result(draft)
}

function result({ document, entries, effects, closesVolume }: Draft<Chart> | Draft<Desk>): StepResult {
  return { document, entries, effects, closesVolume }
}
