// Decides: progress, maintain, ease, step back or stop, for one direction, from the worst of the session's answers and
// then the morning.
// Source: our choice, modelled on the pain-monitoring model's three rules and on two sessions running (ACSM 2009, body
// text); for a clinician to review. Reviewed 2026-11.
import type { Decision, DecisionKind, Reason } from '#src/domain/decision.ts'
import type { Protocol } from '#src/domain/protocol.ts'
import { severities, type Judgement, type Severity } from './judge-session.ts'
import type { Morning } from './morning.ts'

/** How many bad sessions ran before, this one included once it is counted. A worse session never shortens a run. */
export interface Runs {
  readonly amber: number
  readonly red: number
  readonly badMornings: number
  /** Sessions running that called for less than the lowest dose of the rung. */
  readonly lowestDose: number
}

export const noRuns: Runs = { amber: 0, red: 0, badMornings: 0, lowestDose: 0 }

export interface Deciding {
  readonly judgement: Judgement
  readonly morning: Morning
  /** The runs before this session. */
  readonly runs: Runs
  /** What stands in the way of progress, however well it went. */
  readonly gates: readonly Reason[]
  readonly protocol: Protocol
}

export interface Decided extends Decision {
  readonly runs: Runs
  /** Two bad sessions or mornings ran. It holds under a red flag as well, so that a flag never leads to more. */
  readonly goesBack: boolean
  /** The session was clean and only a gate held it: what was met stays met. */
  readonly isHeldByGate: boolean
}

export function decide(deciding: Deciding): Decided {
  const { judgement, morning, protocol, gates } = deciding
  const severity = withMorning(judgement.severity, morning)
  const runs = countRuns(deciding, severity)
  const running = runningReasons(severity, morning, runs, protocol)
  const goesBack = isSecondRunning(severity, morning, runs, protocol)
  const kind = kindOf(severity, goesBack, running, gates)
  const reasons = [...running, ...judgement.reasons, ...morningReasons(morning)]
  return {
    kind,
    runs,
    goesBack,
    isHeldByGate: severity === 'clean' && kind === 'maintain',
    reasons: severity === 'clean' ? [...gates, { rule: 'clean', numbers: { reserve: protocol.reserve.forProgress } }] : reasons,
  }
}

function withMorning(severity: Severity, morning: Morning): Severity {
  const floor: Severity = { fine: 'clean', missing: 'incomplete', bad: 'ease' }[morning.kind] as Severity
  return atLeast(severity, floor) ? severity : floor
}

function atLeast(severity: Severity, floor: Severity): boolean {
  return severities.indexOf(severity) >= severities.indexOf(floor)
}

/** A red flag leaves answers unasked, the morning among them: it counts in every run, as the worst of them would. */
function countRuns({ judgement, morning, runs }: Deciding, severity: Severity): Runs {
  const isBetter = judgement.isComplete
  if (severity === 'flag') {
    return { ...runs, amber: runs.amber + 1, red: runs.red + 1, badMornings: runs.badMornings + 1 }
  }
  return {
    amber: atLeast(severity, 'amber') ? runs.amber + 1 : isBetter && morning.kind === 'fine' ? 0 : runs.amber,
    red: atLeast(judgement.severity, 'red') ? runs.red + 1 : isBetter ? 0 : runs.red,
    badMornings: { bad: runs.badMornings + 1, fine: 0, missing: runs.badMornings }[morning.kind],
    lowestDose: runs.lowestDose,
  }
}

function runningReasons(severity: Severity, morning: Morning, runs: Runs, protocol: Protocol): Reason[] {
  const { running } = protocol
  const reasons: Reason[] = []
  if (atLeast(severity, 'red') && runs.red >= running.red) {
    reasons.push({ rule: 'red-two-running', numbers: { sessions: runs.red, limit: running.red } })
  }
  if (morning.kind === 'bad' && runs.badMornings >= running.badMornings) {
    reasons.push({ rule: 'bad-morning-twice', numbers: { mornings: runs.badMornings, limit: running.badMornings } })
  }
  if (atLeast(severity, 'amber') && runs.amber >= running.amber) {
    reasons.push({ rule: 'amber-three-running', numbers: { sessions: runs.amber, limit: running.amber } })
  }
  return reasons
}

function isSecondRunning(severity: Severity, morning: Morning, runs: Runs, { running }: Protocol): boolean {
  const isMorningBad = morning.kind === 'bad' || severity === 'flag'
  return (atLeast(severity, 'red') && runs.red >= running.red) || (isMorningBad && runs.badMornings >= running.badMornings)
}

function kindOf(severity: Severity, goesBack: boolean, running: readonly Reason[], gates: readonly Reason[]): DecisionKind {
  if (severity === 'flag') return 'stop'
  if (goesBack) return 'step back'
  if (atLeast(severity, 'ease') || running.some((reason) => reason.rule === 'amber-three-running')) return 'ease'
  return severity === 'clean' && gates.length === 0 ? 'progress' : 'maintain'
}

function morningReasons(morning: Morning): Reason[] {
  if (morning.kind === 'fine') return []
  if (morning.kind === 'missing') return [{ rule: 'morning-missing', numbers: {} }]
  return [{ rule: 'bad-morning', numbers: { pain: morning.pain, usual: morning.usual } }]
}
