// Whom of the clinic a chart knows, and what its therapist's desk knows of it.
import type { Chart } from '../chart.ts'
import type { DeskCard } from '../desk-card.ts'
import type { Draft } from '../draft.ts'
import { openMattersOf } from '../open-matters.ts'
import { planOf } from './plan-facts.ts'

/** Cover, time away and colleagues as they are now. A second contact whom the plan names may have joined only since. */
export function hearColleagues(draft: Draft<Chart>, cards: readonly DeskCard[]): void {
  const { therapist, second, plan, colleagues } = draft.document
  const now = (card: DeskCard | null): DeskCard | null => cards.find(({ desk }) => desk === card?.desk) ?? card
  const named = cards.find(({ name, desk }) => name === plan?.contacts.second?.name && desk !== therapist?.desk) ?? null
  const next = { therapist: now(therapist), second: now(second) ?? named, colleagues: cards }
  if (JSON.stringify(next) === JSON.stringify({ therapist, second, colleagues })) return
  draft.change(next)
}

/** A chart of an earlier version knows nobody but its therapist and the second contact, and its desk nothing of what is open. */
export function askForColleagues(draft: Draft<Chart>, before: Chart): void {
  const { colleagues, id, therapist } = draft.document
  if (draft.document === before || colleagues.length > 0 || therapist === null) return
  draft.tell(therapist.desk, { kind: 'client', chart: id, name: planOf(draft.document).client.name })
  const open = openMattersOf(draft.document)
  if (open !== null) draft.tell(therapist.desk, { kind: 'open-matters', chart: id, matters: open })
}

/** After every event: a therapist who is new or no more, and what is open where that has changed. */
export function tellTherapistsDesk(draft: Draft<Chart>, before: Chart): void {
  const { document } = draft
  const [was, is] = [before.isKnownToDesk ? before.therapist?.desk : undefined, document.therapist?.desk]
  if (!before.isKnownToDesk) draft.change({ isKnownToDesk: true })
  if (was !== undefined && was !== is) draft.tell(was, { kind: 'client-left', chart: document.id })
  const isTold = was !== is && (was !== undefined || !before.isKnownToDesk)
  if (isTold && is !== undefined) draft.tell(is, { kind: 'client', chart: document.id, name: planOf(document).client.name })
  const isSame = was === is && (['plan', 'alerts', 'lock', 'isReachable', 'requests'] as const).every((key) => before[key] === document[key])
  if (isSame) return
  const [wasOpen, isOpen] = [was === is ? openMattersOf(before) : null, openMattersOf(document)]
  if (is === undefined || JSON.stringify(wasOpen) === JSON.stringify(isOpen)) return
  draft.tell(is, { kind: 'open-matters', chart: document.id, matters: isOpen })
}
