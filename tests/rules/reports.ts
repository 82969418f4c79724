// Set reports and what goes with them, good unless said otherwise.
import type { Morning } from '#src/rules/morning.ts'
import type { Judgement, Outcome } from '#src/rules/judge-session.ts'
import type { SetReport } from '#src/domain/set-report.ts'

export function report(changes: Partial<SetReport> = {}): SetReport {
  return { pain: 1, control: 'steady', reserve: 3, finished: true, ...changes }
}

export function outcome(changes: Partial<Outcome> = {}): Outcome {
  return {
    painBefore: 1,
    reports: [report(), report(), report()],
    isStopped: false,
    endedEarly: false,
    hasRedFlag: false,
    isUnmeasuredEntry: false,
    ...changes,
  }
}

export const cleanJudgement: Judgement = { severity: 'clean', reasons: [], isComplete: true }
export const fineMorning: Morning = { kind: 'fine', pain: 1, usual: 1 }
