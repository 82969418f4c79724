// Set reports and what goes with them, good unless said otherwise.
import type { Morning } from '#src/rules/morning.ts'
import type { Judgement, Outcome, SetOutcome } from '#src/rules/judge-session.ts'
import type { SetReport } from '#src/domain/set-report.ts'

export function report(changes: Partial<SetReport> = {}): SetReport {
  return { pain: 1, control: 'steady', reserve: 3, finished: true, ...changes }
}

/** The sets of a direction without sides, in order. */
export function sets(...reports: readonly (SetReport | null)[]): readonly SetOutcome[] {
  return reports.map((one, index) => ({ side: null, number: index + 1, report: one }))
}

/** The same number of sets on each side. */
export function bothSides(left: readonly (SetReport | null)[], right: readonly (SetReport | null)[]): readonly SetOutcome[] {
  return [...sets(...left).map((set) => ({ ...set, side: 'left' as const })), ...sets(...right).map((set) => ({ ...set, side: 'right' as const }))]
}

export function outcome(changes: Partial<Outcome> = {}): Outcome {
  return {
    painBefore: 1,
    sets: sets(report(), report(), report()),
    isStopped: false,
    endedEarly: false,
    hasRedFlag: false,
    isUnmeasuredEntry: false,
    ...changes,
  }
}

export const cleanJudgement: Judgement = { severity: 'clean', reasons: [], isComplete: true }
export const fineMorning: Morning = { kind: 'fine', pain: 1, usual: 1 }
