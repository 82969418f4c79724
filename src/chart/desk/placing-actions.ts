// A dose set by hand at a therapist's desk; the client's chart offers what may be set, and sets it.
import type { Conversation, Facts } from '#src/conversation/flow.ts'
import type { Option } from '#src/conversation/question.ts'
import type { Place } from '#src/domain/chain.ts'
import type { LadderId } from '#src/domain/direction.ts'
import type { DocumentId } from '#src/domain/identifier.ts'
import type { Desk } from '../desk.ts'
import type { Draft } from '../draft.ts'
import type { LadderOnOffer } from '../event.ts'
import type { ActionHandler, Values } from '../turn.ts'
import { setOnTop } from './set-on-top.ts'

type Data = Conversation['data']

function offersOf(data: Data): readonly LadderOnOffer[] {
  return Array.isArray(data.offers) ? (data.offers as readonly LadderOnOffer[]) : []
}

function offerOf(data: Data): LadderOnOffer | null {
  return offersOf(data).find(({ ladder }) => ladder === data.ladder) ?? null
}

function chosenPlace(data: Data): { readonly place: Place; readonly label: string } | null {
  return offerOf(data)?.places[Number(data.dose) - 1] ?? null
}

export function placingFacts({ data }: Conversation): Facts {
  return { hasChoice: offersOf(data).length > 1 }
}

export const placingActions: Readonly<Record<string, ActionHandler<Desk>>> = {
  'take-only-ladder': (draft, { data }) => setOnTop(draft, { ...data, ladder: offersOf(data)[0]?.ladder ?? null }),
  place,
}

function place(draft: Draft<Desk>, { data }: Conversation): void {
  const chosen = chosenPlace(data)
  if (chosen === null) return
  const { id, name } = draft.document
  draft.tell(data.chart as DocumentId, {
    kind: 'placed',
    by: { desk: id, name },
    ladder: data.ladder as LadderId,
    place: chosen.place,
    reason: String(data.reason),
  })
}

export const placingOptions: Readonly<Record<string, (draft: Draft<Desk>, data: Data) => readonly Option[]>> = {
  'ladders-to-place': (_draft, data) => offersOf(data).map(({ ladder, now }) => ({ value: ladder, label: now })),
  'doses-to-place': (_draft, data) => (offerOf(data)?.places ?? []).map(({ label }, index) => ({ value: String(index + 1), label: `${index + 1}. ${label}` })),
}

export function placingValues({ data }: Conversation): Values {
  return { client: String(data.client), before: offerOf(data)?.now ?? '', after: chosenPlace(data)?.label ?? '', reason: String(data.reason ?? '') }
}
