// Decides: how a direction went in one session, from the worst of its answers; of two sides from the worst of both.
// Source: pain-monitoring model for the zones; control and reserve limits are our choice. Reviewed 2026-11.
import type { Reason, RuleId } from '#src/domain/decision.ts'
import type { Side } from '#src/domain/direction.ts'
import type { Protocol } from '#src/domain/protocol.ts'
import type { Pain, SetReport } from '#src/domain/set-report.ts'
import { comfortableUpTo, painZone } from './pain-zone.ts'

/** One set prescribed. */
export interface SetOutcome {
  readonly side: Side | null
  /** From 1, on its side. */
  readonly number: number
  /** Null where it was left out or not wholly answered. */
  readonly report: SetReport | null
}

/** What one session asked of one direction, or of both sides, and what came back. */
export interface Outcome {
  readonly painBefore: Pain | null
  readonly sets: readonly SetOutcome[]
  /** The direction was stopped: red pain, control lost twice, or with a side that was. */
  readonly isStopped: boolean
  readonly endedEarly: boolean
  readonly hasRedFlag: boolean
  /** The entry dose of a rung entered without a measured maximum: more has to be left in the first set. */
  readonly isUnmeasuredEntry: boolean
}

/**
 * How bad, best first. `incomplete` tells nothing (something is missing, or little was left in reserve); `amber` counts
 * towards three running, `ease` eases at once, `red` counts towards two running, `flag` locks.
 */
export const severities = ['clean', 'incomplete', 'amber', 'ease', 'red', 'flag'] as const
export type Severity = (typeof severities)[number]

export interface Judgement {
  readonly severity: Severity
  /** Everything that fired, worst first. */
  readonly reasons: readonly Reason[]
  /** Every set asked was answered, so that a better session ends a run of bad ones. */
  readonly isComplete: boolean
}

interface Finding {
  readonly severity: Severity
  readonly reason: Reason
}

export function judgeSession(outcome: Outcome, usual: Pain, protocol: Protocol): Judgement {
  const findings = [
    ...findingsBefore(outcome, usual, protocol),
    ...outcome.sets.flatMap((set) => findingsOfSet(set, usual, protocol)),
    ...findingsOfCourse(outcome, protocol),
  ].sort((a, b) => severities.indexOf(b.severity) - severities.indexOf(a.severity))
  return {
    severity: findings[0]?.severity ?? 'clean',
    reasons: findings.map((finding) => finding.reason).filter((reason) => !(isCutShort(outcome, usual, protocol) && reason.rule === 'set-left-out')),
    isComplete: outcome.sets.every(({ report }) => report !== null && isWhole(report, protocol)),
  }
}

/** Sets that were not asked because the direction was stopped, or never begun, were not left out by anybody. */
function isCutShort({ isStopped, hasRedFlag, painBefore }: Outcome, usual: Pain, protocol: Protocol): boolean {
  return isStopped || hasRedFlag || (painBefore !== null && painZone(painBefore, usual, protocol) === 'red')
}

function findingsBefore({ painBefore }: Outcome, usual: Pain, protocol: Protocol): Finding[] {
  if (painBefore === null) return [{ severity: 'incomplete', reason: { rule: 'answer-missing', numbers: { set: 0, side: 'none' } } }]
  const numbers = { pain: painBefore, limit: comfortableUpTo(usual, protocol), red: protocol.pain.amberUpTo }
  const zone = painZone(painBefore, usual, protocol)
  if (zone === 'red') return [{ severity: 'red', reason: { rule: 'pain-before-red', numbers } }]
  return zone === 'amber' ? [{ severity: 'amber', reason: { rule: 'pain-before-amber', numbers } }] : []
}

function findingsOfSet({ side, number, report }: SetOutcome, usual: Pain, protocol: Protocol): Finding[] {
  const where = { set: number, side: side ?? 'none' }
  if (report === null) return [{ severity: 'incomplete', reason: { rule: 'set-left-out', numbers: where } }]
  const { pain, control, reserve, finished } = report
  const findings: Finding[] = []
  const find = (severity: Severity, rule: RuleId, numbers: Reason['numbers'] = {}): void => {
    findings.push({ severity, reason: { rule, numbers: { ...where, ...numbers } } })
  }
  const zone = painZone(pain, usual, protocol)
  if (zone === 'red') find('red', 'red', { pain, limit: protocol.pain.amberUpTo })
  if (zone === 'amber') find('amber', 'amber', { pain, limit: comfortableUpTo(usual, protocol) })
  if (control === 'lost') find('ease', 'control-lost')
  if (control === 'shaky') find('amber', 'shaky')
  if (!isWhole(report, protocol)) find('incomplete', 'answer-missing')
  if (!finished) find('ease', 'not-finished')
  if (reserve !== null && reserve < protocol.reserve.forProgress) {
    find(reserve === 0 ? 'amber' : 'incomplete', 'reserve-low', { reserve, limit: protocol.reserve.forProgress })
  }
  return findings
}

/** After red pain nothing more is asked, so its report is whole without the rest. */
function isWhole({ pain, control, reserve }: SetReport, protocol: Protocol): boolean {
  return pain > protocol.pain.amberUpTo || (control !== null && reserve !== null)
}

function findingsOfCourse(outcome: Outcome, protocol: Protocol): Finding[] {
  const findings: Finding[] = []
  if (outcome.hasRedFlag) findings.push({ severity: 'flag', reason: { rule: 'red-flag', numbers: {} } })
  if (outcome.isStopped) findings.push({ severity: 'red', reason: { rule: 'direction-stopped', numbers: {} } })
  if (outcome.endedEarly) findings.push({ severity: 'incomplete', reason: { rule: 'ended-early', numbers: {} } })
  const limit = protocol.reserve.onEntryUnmeasured
  const firstReserves = outcome.sets.flatMap(({ number, report }) => (number === 1 && report?.reserve != null ? [report.reserve] : []))
  const reserve = Math.min(...firstReserves)
  if (outcome.isUnmeasuredEntry && reserve < limit) {
    findings.push({ severity: 'incomplete', reason: { rule: 'entry-reserve-low', numbers: { reserve, limit } } })
  }
  return findings
}
