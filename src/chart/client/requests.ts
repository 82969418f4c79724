// Questions to the therapist that the rules wait for: a rung to be shown and approved.
import type { Direction } from '#src/domain/direction.ts'
import type { DirectionState } from '#src/rules/direction-state.ts'
import { locate } from '#src/rules/moves.ts'
import type { Chart, Request } from '../chart.ts'
import type { Draft } from '../draft.ts'
import { actButton, tellTherapist } from './alert-message.ts'
import { gatesOf } from './gates.ts'
import { chainOf, directionsOf, planOf, stateOf } from './plan-facts.ts'
import { say } from './say.ts'

/** Asks once for what will be needed next; `ahead` are the states as they will be if the morning is fine. */
export function requestPermissions(
  draft: Draft<Chart>,
  ahead: readonly { readonly direction: Direction; readonly state: DirectionState }[] = [],
): void {
  for (const direction of directionsOf(planOf(draft.document))) {
    const state = ahead.find((one) => one.direction === direction)?.state ?? stateOf(draft.document, direction, draft.content)
    const request = permissionRequest(draft, direction, state)
    if (request !== null) ask(draft, request)
  }
}

function permissionRequest(draft: Draft<Chart>, direction: Direction, state: DirectionState): Request | null {
  const chain = chainOf(planOf(draft.document), direction, draft.content)
  const next = chain.places[locate(chain, state.place) + 1]
  const missing = gatesOf(draft, direction, state).map((gate) => gate.rule)
  const needsApproval = missing.includes('rung-needs-approval')
  if (next === undefined || !(needsApproval || missing.includes('rung-not-shown'))) return null
  const { rung, exercise } = next
  const isAsked = draft.document.requests.some((open) => open.kind === 'rung' && open.direction === direction && open.rung === rung)
  return isAsked ? null : { id: `rung-${rung}-${direction}`, kind: 'rung', direction, rung, exercise, needsApproval, at: draft.at, isDeclined: false }
}

function ask(draft: Draft<Chart>, request: Request): void {
  draft.change({ requests: [...draft.document.requests, request] })
  draft.record('request', 'nuchal', { ...request })
  const { text, words } = say(draft, 'therapist')
  const values = { client: planOf(draft.document).client.name, exercise: words.exercise(request.exercise).name, rung: request.rung }
  tellTherapist(draft, {
    text: text(request.needsApproval ? 'alert.request.approve' : 'alert.request.show', values),
    buttons: [
      [actButton(draft, 'permit', request.id, text('alert.request.permit'))],
      [actButton(draft, 'decline', request.id, text('alert.request.decline'))],
    ],
    urgency: 'reply',
    alert: null,
  })
}
