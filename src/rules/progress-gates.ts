// Decides: what stands in the way of progress, however well a session went.
// Source: our choice: rungs are entered only when shown, harness and bridge when approved, loaded rungs left only after
// six sessions and fourteen days; no progress without supervision, right after a lock, at a high usual pain or in a week
// of more pain than usual. Reviewed 2026-11.
import type { Chain } from '#src/domain/chain.ts'
import type { Reason } from '#src/domain/decision.ts'
import type { Exercise } from '#src/domain/exercise.ts'
import type { ExerciseId } from '#src/domain/identifier.ts'
import type { Protocol } from '#src/domain/protocol.ts'
import type { Pain } from '#src/domain/set-report.ts'
import type { LadderState } from './ladder-state.ts'
import { locate, placeAt } from './moves.ts'

export interface GateFacts {
  readonly chain: Chain
  readonly state: LadderState
  readonly protocol: Protocol
  readonly exercises: ReadonlyMap<ExerciseId, Exercise>
  readonly usualPain: Pain
  /** The week's average pain, where it was given within the last seven days. */
  readonly weeklyAverage: Pain | null
  readonly daysSinceReview: number
  readonly shown: readonly ExerciseId[]
  /** The rung or load step the therapist's approval that still stands permits. */
  readonly hasApproval: boolean
  /** On the present rung, the present session included. */
  readonly sessionsOnRung: number
  readonly daysOnRung: number
}

export function progressGates(facts: GateFacts): readonly Reason[] {
  return [...clientGates(facts), ...placeGates(facts)]
}

function clientGates({ state, protocol, usualPain, weeklyAverage, daysSinceReview }: GateFacts): Reason[] {
  const gates: Reason[] = []
  if (!protocol.progress.isAutomatic) gates.push({ rule: 'protocol-maintains', numbers: {} })
  if (usualPain >= protocol.pain.noProgressFromUsual) {
    gates.push({ rule: 'usual-pain-high', numbers: { usual: usualPain, limit: protocol.pain.noProgressFromUsual } })
  }
  const weeklyLimit = usualPain + protocol.weekly.noProgressAboveUsualBy
  if (weeklyAverage !== null && weeklyAverage >= weeklyLimit) {
    gates.push({ rule: 'weekly-average-high', numbers: { average: weeklyAverage, limit: weeklyLimit } })
  }
  if (state.sessionsWithoutProgress > 0) {
    gates.push({ rule: 'no-progress-after-lock', numbers: { sessions: state.sessionsWithoutProgress } })
  }
  if (daysSinceReview >= protocol.supervision.noProgressAfterDays) {
    const numbers = { days: daysSinceReview, limit: protocol.supervision.noProgressAfterDays }
    gates.push({ rule: 'supervision-lapsed', numbers })
  }
  return gates
}

function placeGates(facts: GateFacts): Reason[] {
  const { chain, state, exercises, protocol } = facts
  const index = locate(chain, state.place)
  const here = placeAt(chain, index)
  const next = chain.places[index + 1]
  if (next === undefined) return [{ rule: 'top-of-ladder', numbers: { rung: here.rung } }]
  const approval: Reason = { rule: 'rung-needs-approval', numbers: { rung: next.rung } }
  if (next.rung === here.rung) return next.needsApproval && !facts.hasApproval ? [approval] : []
  const gates: Reason[] = []
  const leaving = exercises.get(here.exercise)
  const entering = exercises.get(next.exercise)
  if (!facts.shown.includes(next.exercise)) gates.push({ rule: 'rung-not-shown', numbers: { rung: next.rung } })
  const needsApproval = next.needsApproval || entering?.needsApprovalToEnter === true || leaving?.needsApprovalToLeave === true
  if (needsApproval && !facts.hasApproval) gates.push(approval)
  const { sessions, days } = protocol.loadedRung
  if (leaving?.isLoaded === true && (facts.sessionsOnRung < sessions || facts.daysOnRung < days)) {
    const numbers = { sessions: facts.sessionsOnRung, neededSessions: sessions, days: facts.daysOnRung, neededDays: days }
    gates.push({ rule: 'rung-too-soon', numbers })
  }
  return gates
}
