// Decides: what stands behind a decision: each reason, the numbers it rests on, whose they are and where they come from,
// and the move that followed.
// Source: none of its own; it reports the protocol's. Reviewed 2026-11.
import type { Decision, DecisionKind, Reason } from '#src/domain/decision.ts'
import { thresholdAt, type Protocol, type ThresholdOverrides, type ThresholdPath, type ThresholdSources, type ThresholdValue } from '#src/domain/protocol.ts'
import { withOverrides } from './protocol-for.ts'
import { moveThresholds, ruleThresholds } from './rule-thresholds.ts'

export interface Basis {
  readonly protocol: Protocol
  readonly sources: ThresholdSources
  /** What the plan sets otherwise. */
  readonly overrides: ThresholdOverrides | undefined
}

/** A number that a rule rests on, as it is in force now: a plan changed since then has changed it. */
export interface ThresholdInForce {
  readonly path: ThresholdPath
  readonly value: ThresholdValue
  readonly isSetByTherapist: boolean
  readonly protocolValue: ThresholdValue
  /** Of the protocol's value. */
  readonly source: string
}

export interface ExplainedReason {
  readonly reason: Reason
  /** Empty where the rule is a matter of structure. */
  readonly thresholds: readonly ThresholdInForce[]
}

export interface Explanation {
  readonly kind: DecisionKind
  readonly reasons: readonly ExplainedReason[]
  readonly move: readonly ThresholdInForce[]
}

export function explainDecision({ kind, reasons }: Decision, basis: Basis): Explanation {
  return { kind, reasons: explainReasons(reasons, basis), move: moveThresholds[kind].map((path) => inForce(path, basis)) }
}

export function explainReasons(reasons: readonly Reason[], basis: Basis): readonly ExplainedReason[] {
  return reasons.map((reason) => ({ reason, thresholds: ruleThresholds[reason.rule].map((path) => inForce(path, basis)) }))
}

function inForce(path: ThresholdPath, { protocol, sources, overrides }: Basis): ThresholdInForce {
  const protocolValue = thresholdAt(protocol, path)
  const value = thresholdAt(withOverrides(protocol, overrides), path)
  const source = sources.get(path)
  if (value === undefined || protocolValue === undefined || source === undefined) throw new RangeError(`no source for ${path}`)
  const isSetByTherapist = overrides !== undefined && thresholdAt(overrides, path) !== undefined
  return { path, value, isSetByTherapist, protocolValue, source }
}
