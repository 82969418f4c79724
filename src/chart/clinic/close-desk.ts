// A therapist has left: nobody comes in by what they were given, and whoever takes over is known to every desk and chart.
import type { Clinic } from '../clinic.ts'
import type { Draft } from '../draft.ts'
import type { EventOf } from '../event.ts'

/** Nothing happens where nobody of the clinic would take over: a client without a therapist has nobody who reads an alert. */
export function closeDesk(draft: Draft<Clinic>, { desk, to, reason }: EventOf<'close-desk'>): void {
  const { therapists, invitations, left = [] } = draft.document
  const successor = therapists.find((card) => card.desk === to)
  if (successor === undefined || to === desk || hasLeft(draft.document, desk)) return
  const staying = therapists.filter((card) => card.desk !== desk)
  draft.change({
    therapists: staying,
    left: [...left, { desk, to }],
    // Whoever leaves may have asked for one, and would come back by it.
    invitations: invitations.filter((one) => one.for.kind === 'client' || one.usedAt !== null),
  })
  draft.record('desk-closed', 'nuchal', { desk, name: therapists.find((card) => card.desk === desk)?.name ?? '', to, reason })
  for (const one of [...staying.map((card) => card.desk), desk]) draft.tell(one, { kind: 'colleague-left', desk, to: successor })
  for (const card of staying) draft.tell(card.desk, { kind: 'colleagues', cards: staying })
}

/** What was still on its way from a closed desk must not bring it back. */
export function hasLeft({ left = [] }: Clinic, desk: string): boolean {
  return left.some((one) => one.desk === desk)
}
