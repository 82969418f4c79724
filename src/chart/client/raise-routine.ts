// What the therapist is told without anything being locked.
import type { LadderId } from '#src/domain/direction.ts'
import type { Button } from '#src/domain/message.ts'
import { locate, placeAt } from '#src/rules/moves.ts'
import type { Chart } from '../chart.ts'
import type { Draft } from '../draft.ts'
import { actButton, shownAlert, tellTherapist } from './alert-message.ts'
import { newAlert } from './new-alert.ts'
import { chainOf, planOf, stateOf } from './plan-facts.ts'
import { say } from './say.ts'

export interface RoutineMatter {
  readonly title: string
  readonly ladder: LadderId | null
  /** The rules wait for an answer before this ladder goes on. */
  readonly request: 'lowest-dose' | null
}

export function raiseRoutine(draft: Draft<Chart>, { title, ladder, request }: RoutineMatter): void {
  const alert = newAlert(draft, { level: 'routine', sign: null, title, words: null, isConfirmed: true, told: null })
  const therapist = draft.document.therapist
  if (!therapist) return
  const shown = shownAlert(draft, alert, { reader: therapist, others: [], isForAll: false })
  tellTherapist(draft, request === null || ladder === null ? shown : { ...shown, buttons: [...shown.buttons, ...askToResume(draft, ladder)] })
}

/** It rests until the therapist says that it may go on from its lowest dose. */
function askToResume(draft: Draft<Chart>, ladder: LadderId): Button[][] {
  const chain = chainOf(planOf(draft.document), ladder, draft.content)
  const { rung, exercise } = placeAt(chain, locate(chain, stateOf(draft.document, ladder, draft.content).place))
  const id = `lowest-${ladder}`
  const others = draft.document.requests.filter((request) => request.id !== id)
  draft.change({ requests: [...others, { id, kind: 'lowest-dose', ladder, rung, exercise, needsApproval: true, at: draft.at, isDeclined: false }] })
  return [[actButton(draft, 'resume', id, say(draft, 'therapist').text('alert.press.resume'))]]
}
