// Decides: how a direction went in one session, from the worst of its answers.
// Source: pain-monitoring model for the zones; control and reserve limits are our choice. Reviewed 2026-11.
import type { Reason } from '#src/domain/decision.ts'
import type { Protocol } from '#src/domain/protocol.ts'
import type { Pain, SetReport } from '#src/domain/set-report.ts'
import { painZone } from './pain-zone.ts'

/** What one session asked of one direction and what came back. */
export interface Outcome {
  readonly painBefore: Pain | null
  /** One for each set prescribed; null where it was left out or not wholly answered. */
  readonly reports: readonly (SetReport | null)[]
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
    ...outcome.reports.flatMap((report, index) => findingsOfSet(report, index + 1, usual, protocol)),
    ...findingsOfCourse(outcome, protocol),
  ].sort((a, b) => severities.indexOf(b.severity) - severities.indexOf(a.severity))
  return {
    severity: findings[0]?.severity ?? 'clean',
    reasons: findings.map((finding) => finding.reason).filter((reason) => !(isCutShort(outcome, usual, protocol) && reason.rule === 'set-left-out')),
    isComplete: outcome.reports.every((report) => report !== null && isWhole(report, protocol)),
  }
}

/** Sets that were not asked because the direction was stopped, or never begun, were not left out by anybody. */
function isCutShort({ isStopped, hasRedFlag, painBefore }: Outcome, usual: Pain, protocol: Protocol): boolean {
  return isStopped || hasRedFlag || (painBefore !== null && painZone(painBefore, usual, protocol) === 'red')
}

function findingsBefore({ painBefore }: Outcome, usual: Pain, protocol: Protocol): Finding[] {
  if (painBefore === null) return [{ severity: 'incomplete', reason: { rule: 'answer-missing', numbers: { set: 0 } } }]
  const numbers = { pain: painBefore, limit: Math.max(protocol.pain.comfortableUpTo, usual), red: protocol.pain.amberUpTo }
  const zone = painZone(painBefore, usual, protocol)
  if (zone === 'red') return [{ severity: 'red', reason: { rule: 'pain-before-red', numbers } }]
  return zone === 'amber' ? [{ severity: 'amber', reason: { rule: 'pain-before-amber', numbers } }] : []
}

function findingsOfSet(report: SetReport | null, set: number, usual: Pain, protocol: Protocol): Finding[] {
  if (report === null) return [{ severity: 'incomplete', reason: { rule: 'set-left-out', numbers: { set } } }]
  const { pain, control, reserve, finished } = report
  const findings: Finding[] = []
  const zone = painZone(pain, usual, protocol)
  const limit = Math.max(protocol.pain.comfortableUpTo, usual)
  if (zone === 'red') findings.push({ severity: 'red', reason: { rule: 'red', numbers: { set, pain, limit: protocol.pain.amberUpTo } } })
  if (zone === 'amber') findings.push({ severity: 'amber', reason: { rule: 'amber', numbers: { set, pain, limit } } })
  if (control === 'lost') findings.push({ severity: 'ease', reason: { rule: 'control-lost', numbers: { set } } })
  if (control === 'shaky') findings.push({ severity: 'amber', reason: { rule: 'shaky', numbers: { set } } })
  if (!isWhole(report, protocol)) findings.push({ severity: 'incomplete', reason: { rule: 'answer-missing', numbers: { set } } })
  if (!finished) findings.push({ severity: 'ease', reason: { rule: 'not-finished', numbers: { set } } })
  if (reserve !== null && reserve < protocol.reserve.forProgress) {
    const numbers = { set, reserve, limit: protocol.reserve.forProgress }
    findings.push({ severity: reserve === 0 ? 'amber' : 'incomplete', reason: { rule: 'reserve-low', numbers } })
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
  const first = outcome.reports[0]
  const limit = protocol.reserve.onEntryUnmeasured
  if (outcome.isUnmeasuredEntry && first?.reserve != null && first.reserve < limit) {
    findings.push({ severity: 'incomplete', reason: { rule: 'entry-reserve-low', numbers: { reserve: first.reserve, limit } } })
  }
  return findings
}
