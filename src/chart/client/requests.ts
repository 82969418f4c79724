// Questions to the therapist that the rules wait for: a rung to be shown and approved.
import type { LadderId } from '#src/domain/direction.ts'
import type { Button } from '#src/domain/message.ts'
import type { LadderState } from '#src/rules/ladder-state.ts'
import { locate } from '#src/rules/moves.ts'
import type { Chart, Request } from '../chart.ts'
import type { Draft } from '../draft.ts'
import type { ActKind } from '../event.ts'
import { actButton, tellTherapist } from './alert-message.ts'
import { gatesOf } from './gates.ts'
import { chainOf, planOf, stateOf } from './plan-facts.ts'
import { laddersOf } from '#src/rules/plan-ladders.ts'
import { say } from './say.ts'

/** Asks once for what will be needed next; `ahead` are the states as they will be if the morning is fine. */
export function requestPermissions(
  draft: Draft<Chart>,
  ahead: readonly { readonly ladder: LadderId; readonly state: LadderState }[] = [],
): void {
  for (const ladder of laddersOf(planOf(draft.document))) {
    const state = ahead.find((one) => one.ladder === ladder)?.state ?? stateOf(draft.document, ladder, draft.content)
    const request = permissionRequest(draft, ladder, state)
    if (request !== null) ask(draft, request)
  }
}

function permissionRequest(draft: Draft<Chart>, ladder: LadderId, state: LadderState): Request | null {
  const chain = chainOf(planOf(draft.document), ladder, draft.content)
  const next = chain.places[locate(chain, state.place) + 1]
  const missing = gatesOf(draft, ladder, state).map((gate) => gate.rule)
  const needsApproval = missing.includes('rung-needs-approval')
  if (next === undefined || !(needsApproval || missing.includes('rung-not-shown'))) return null
  const { rung, exercise } = next
  const isAsked = draft.document.requests.some((open) => open.kind === 'rung' && open.ladder === ladder && open.rung === rung)
  return isAsked ? null : { id: `rung-${rung}-${ladder}`, kind: 'rung', ladder, rung, exercise, needsApproval, at: draft.at, isDeclined: false }
}

function ask(draft: Draft<Chart>, request: Request): void {
  draft.change({ requests: [...draft.document.requests, request] })
  draft.record('request', 'nuchal', { ...request })
  showRequest(draft, request)
}

/** To whoever is the therapist now. */
export function showRequest(draft: Draft<Chart>, request: Request): void {
  const { text, words } = say(draft, 'therapist')
  const values = { client: planOf(draft.document).client.name, exercise: words.exerciseName(request.exercise), rung: request.rung }
  const button = (act: ActKind, label: string): readonly Button[] => [actButton(draft, act, request.id, text(label))]
  const isToResume = request.kind === 'lowest-dose'
  const asked = request.needsApproval ? 'alert.request.approve' : 'alert.request.show'
  tellTherapist(draft, {
    text: text(isToResume ? 'alert.request.resume' : asked, values),
    buttons: isToResume
      ? [button('resume', 'alert.press.resume')]
      : [button('permit', 'alert.request.permit'), button('decline', 'alert.request.decline')],
    urgency: 'reply',
    alert: null,
  })
}
