// The decision of the last session, final once the morning after is known and the next session begins; until then what it
// would be now.
import { comparePlaces } from '#src/domain/chain.ts'
import type { Direction, LadderId } from '#src/domain/direction.ts'
import { worseDecision } from '#src/domain/decision.ts'
import type { Content } from '#src/content/content.ts'
import { judgeMorning, type Morning } from '#src/rules/morning.ts'
import { judgeSession } from '#src/rules/judge-session.ts'
import { locate, placeAt } from '#src/rules/moves.ts'
import { settle, type Settled, type Settling } from '#src/rules/settle.ts'
import type { Chart, PendingLadder, PendingSession } from '../chart.ts'
import type { Draft } from '../draft.ts'
import { chainOf, isRungOpen, planOf, protocolOf, stateOf } from './plan-facts.ts'
import { raiseRoutine } from './raise-routine.ts'
import { gatesOf } from './gates.ts'
import { requestPermissions } from './requests.ts'
import { say } from './say.ts'

export interface SettledLadder extends Settled {
  readonly ladder: LadderId
  readonly directions: readonly Direction[]
}

/** What would be decided, with the morning as it is known; before the morning is due it is taken as fine. */
export function decisionsOf(chart: Chart, content: Content, assumesFineMorning: boolean): readonly SettledLadder[] {
  const { pending } = chart
  if (pending === null) return []
  const plan = planOf(chart)
  const protocol = protocolOf(plan, content)
  const known = judgeMorning(pending.morning, pending.worstSince, plan.usualPain, protocol)
  const isTakenAsFine = assumesFineMorning && known.kind === 'missing'
  const morning: Morning = isTakenAsFine ? { kind: 'fine', pain: plan.usualPain, usual: plan.usualPain } : known
  return pending.ladders.map((one) => ({ ladder: one.ladder, directions: one.directions, ...settleLadder(chart, content, pending, one, morning) }))
}

function settleLadder(chart: Chart, content: Content, pending: PendingSession, one: PendingLadder, morning: Morning): Settled {
  const plan = planOf(chart)
  const protocol = protocolOf(plan, content)
  const judgement = judgeSession({ ...pending, ...one }, plan.usualPain, protocol)
  const settling: Settling = {
    chain: chainOf(plan, one.ladder, content),
    state: stateOf(chart, one.ladder, content),
    judgement,
    morning,
    gates: one.gates,
    protocol,
    isRungOpen: isRungOpen(chart, one.ladder, content),
  }
  if (one.placed) {
    const { morning: knew, worstSince: knewWorst } = one.placed
    const heardSince = judgeMorning(pending.morning === knew ? null : pending.morning, pending.worstSince === knewWorst ? null : pending.worstSince, plan.usualPain, protocol)
    return settlePlaced(settling, heardSince)
  }
  const settled = settle(settling)
  if (!one.isReleased) return settled
  return { ...settled, state: { ...settled.state, isHeld: false, runs: { ...settled.state.runs, lowestDose: 0 } } }
}

/** The therapist's dose stands: the answers that they knew of have had their say, and a bad morning told since still lowers it. */
function settlePlaced(settling: Settling, heardSince: Morning): Settled {
  const settled = settle({
    ...settling,
    judgement: { severity: 'clean', reasons: [], isComplete: true },
    morning: heardSince.kind === 'bad' ? heardSince : { kind: 'fine', pain: 0, usual: 0 },
    gates: [{ rule: 'placed-by-therapist', numbers: {} }],
  })
  const reasons = settled.decision.reasons.filter(({ rule }) => rule !== 'clean')
  return { ...settled, decision: { ...settled.decision, reasons } }
}

/** Makes the last session's decisions final and moves every ladder. */
export function settlePending(draft: Draft<Chart>): void {
  const { pending } = draft.document
  if (pending === null) return
  const now = withGatesOfNow(draft, pending)
  draft.change({ pending: now })
  const settled = decisionsOf(draft.document, draft.content, false)
  const states = { ...draft.document.states }
  const spent = settled.filter((one) => hasSpentApproval(draft, one)).map((one) => one.ladder)
  for (const { ladder, directions, decision, state } of settled) {
    states[ladder] = state
    for (const direction of directions) draft.record('decision', 'nuchal', { session: pending.id, direction, ...decision, place: state.place })
  }
  const worst = settled.map((one) => one.decision.kind).reduce(worseDecision, 'progress')
  draft.change({
    states,
    pending: null,
    lastDecisions: settled.map(({ ladder, decision }) => ({ ladder, decision })),
    // An approval permits one move, and lapses at the first session that is not clean; one held by a gate only is clean.
    approvals: draft.document.approvals.filter(({ ladder }) => isCleanFor(ladder, settled) && !spent.includes(ladder)),
    requests: draft.document.requests.filter(({ ladder, kind }) => kind !== 'rung' || isCleanFor(ladder, settled)),
  })
  tellConcerns(draft, now, settled)
  if (worst !== 'stop') requestPermissions(draft)
}

/** What stands in the way now adds to what stood in the way at the end; nothing that has fallen away raises the dose. */
function withGatesOfNow(draft: Draft<Chart>, pending: PendingSession): PendingSession {
  const ladders = pending.ladders.map((one) => {
    const now = gatesOf(draft, one.ladder, stateOf(draft.document, one.ladder, draft.content))
    const added = now.filter((gate) => !one.gates.some((known) => known.rule === gate.rule))
    return { ...one, gates: [...one.gates, ...added] }
  })
  return { ...pending, ladders }
}

/** The move it permitted has been made: onto another rung, or over a load step that needed it. */
function hasSpentApproval(draft: Draft<Chart>, { ladder, state }: SettledLadder): boolean {
  const before = stateOf(draft.document, ladder, draft.content).place
  const chain = chainOf(planOf(draft.document), ladder, draft.content)
  const now = placeAt(chain, locate(chain, state.place))
  return now.rung !== before.rung || (now.needsApproval && comparePlaces(now, before) > 0)
}

function isCleanFor(ladder: LadderId, settled: readonly SettledLadder[]): boolean {
  const own = settled.find((one) => one.ladder === ladder)
  return own === undefined || own.decision.reasons.some((reason) => reason.rule === 'clean')
}

/** The therapist is told as soon as a concern is known, not only when the next session makes it final. */
export function tellConcernsOfNow(draft: Draft<Chart>): void {
  const { pending } = draft.document
  if (pending === null) return
  const toldRules = tellConcerns(draft, pending, decisionsOf(draft.document, draft.content, true))
  draft.change({ pending: { ...pending, toldRules } })
}

/** Tells what has not been told of this session yet; gives back all that has been told. */
function tellConcerns(draft: Draft<Chart>, pending: PendingSession, settled: readonly SettledLadder[]): readonly string[] {
  const told = [...pending.toldRules]
  for (const { ladder, concerns, state } of settled) {
    for (const concern of concerns) {
      const name = `${ladder} ${concern.rule}`
      if (told.includes(name)) continue
      told.push(name)
      const request = concern.rule === 'lowest-dose' && state.isHeld ? 'lowest-dose' : null
      raiseRoutine(draft, { title: say(draft, 'therapist').reason(concern), ladder, request })
    }
  }
  return told
}
