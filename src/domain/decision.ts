/** What becomes of a direction's dose, from the most to the least demanding. */
export const decisions = ['progress', 'maintain', 'ease', 'step back', 'stop'] as const
export type DecisionKind = (typeof decisions)[number]

/** Every rule that can be named as a reason; each has wording for the client and for the therapist. */
export const ruleIds = [
  'clean',
  'top-of-ladder',
  'rung-not-shown',
  'rung-needs-approval',
  'rung-too-soon',
  'amber',
  'shaky',
  'reserve-low',
  'entry-reserve-low',
  'set-left-out',
  'answer-missing',
  'morning-missing',
  'ended-early',
  'pain-before-amber',
  'pain-before-red',
  'control-lost',
  'not-finished',
  'bad-morning',
  'red',
  'direction-stopped',
  'amber-three-running',
  'red-two-running',
  'bad-morning-twice',
  'lowest-dose',
  'rung-below-closed',
  'red-flag',
  'usual-pain-high',
  'weekly-average-high',
  'no-progress-after-lock',
  'supervision-lapsed',
  'protocol-maintains',
  'maintained-dose-lowered',
  'placed-by-therapist',
  'steps-renewed',
  'absence-withdrawn',
  'absence-eased',
  'absence-reentry',
] as const
export type RuleId = (typeof ruleIds)[number]

/** A rule that fired, with the numbers that made it fire. */
export interface Reason {
  readonly rule: RuleId
  readonly numbers: Readonly<Record<string, number | string>>
}

export interface Decision {
  readonly kind: DecisionKind
  readonly reasons: readonly Reason[]
}

/** The one further down the table. */
export function worseDecision(a: DecisionKind, b: DecisionKind): DecisionKind {
  return decisions.indexOf(a) >= decisions.indexOf(b) ? a : b
}
