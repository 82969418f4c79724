// A therapist is known: the clinic and every colleague hear of them.
import { clinicId } from '../clinic.ts'
import { cardOf, type Desk } from '../desk.ts'
import type { DeskCard } from '../desk-card.ts'
import type { Draft } from '../draft.ts'

export function settleInAs(draft: Draft<Desk>, { name, zone, cover, away }: Omit<DeskCard, 'desk'>): void {
  draft.change({ name, zone, cover, away: away ?? null })
  draft.record('settled-in', name, {})
  draft.tell(clinicId, { kind: 'settled-in', card: cardOf(draft.document) })
  draft.say(draft.words(draft.document.language).say('desk.welcome', { name }))
}
