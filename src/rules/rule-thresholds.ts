// Decides: on which thresholds each rule rests, and each move of the dose.
// Source: the rules themselves; none listed means that a rule is a matter of structure, not of a number. Reviewed 2026-11.
import { ruleIds, type DecisionKind, type RuleId } from '#src/domain/decision.ts'
import type { ThresholdPath } from '#src/domain/protocol.ts'

export const ruleThresholds: Readonly<Record<RuleId, readonly ThresholdPath[]>> = {
  clean: ['pain.comfortableUpTo', 'reserve.forProgress', 'morning.badAboveUsualBy'],
  'top-of-ladder': [],
  'rung-not-shown': [],
  'rung-needs-approval': ['loadStep.approvalAbove', 'approval.lapsesAfterDays'],
  'rung-too-soon': ['loadedRung.sessions', 'loadedRung.days'],
  amber: ['pain.comfortableUpTo', 'pain.amberUpTo'],
  shaky: [],
  'reserve-low': ['reserve.forProgress'],
  'entry-reserve-low': ['reserve.onEntryUnmeasured'],
  'set-left-out': [],
  'answer-missing': [],
  'morning-missing': [],
  'ended-early': [],
  'pain-before-amber': ['pain.comfortableUpTo', 'pain.amberUpTo'],
  'pain-before-red': ['pain.amberUpTo'],
  'control-lost': [],
  'not-finished': [],
  'bad-morning': ['morning.badAboveUsualBy'],
  red: ['pain.amberUpTo'],
  // By red pain, which is a reason of its own, or by control lost twice.
  'direction-stopped': [],
  'amber-three-running': ['running.amber'],
  'red-two-running': ['running.red'],
  'bad-morning-twice': ['running.badMornings'],
  'lowest-dose': ['running.lowestDose'],
  'rung-below-closed': [],
  'red-flag': [],
  'usual-pain-high': ['pain.noProgressFromUsual'],
  'weekly-average-high': ['weekly.noProgressAboveUsualBy'],
  'no-progress-after-lock': ['lock.sessionsWithoutProgress'],
  'supervision-lapsed': ['supervision.noProgressAfterDays'],
  'protocol-maintains': ['progress.isAutomatic'],
  'maintained-dose-lowered': ['progress.isAutomatic'],
  'placed-by-therapist': [],
  'steps-renewed': [],
  'absence-withdrawn': ['absence.withdrawAfterDays'],
  'absence-eased': ['absence.easeAfterDays'],
  'absence-reentry': ['absence.reenterAfterDays'],
}

export const moveThresholds: Readonly<Record<DecisionKind, readonly ThresholdPath[]>> = {
  progress: ['loadStep.largest'],
  maintain: [],
  ease: ['ease.atLeast'],
  'step back': ['ease.atLeast'],
  stop: [],
}

export const structuralRules: readonly RuleId[] = ruleIds.filter((rule) => ruleThresholds[rule].length === 0)

/** Every threshold that can come up where a decision is explained. */
export const explainedThresholds: readonly ThresholdPath[] = [
  ...new Set([...Object.values(ruleThresholds), ...Object.values(moveThresholds)].flat()),
]
