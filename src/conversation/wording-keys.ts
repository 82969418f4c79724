// Every text that code asks for by a name made up of a prefix and an id.
import { decisions, ruleIds } from '#src/domain/decision.ts'
import { directions, ladderIds } from '#src/domain/direction.ts'
import { measureIds, populations } from '#src/domain/measure.ts'
import { weekdays } from '#src/domain/plan.ts'
import { signatureKinds } from '#src/domain/signature.ts'
import { controls } from '#src/domain/set-report.ts'
import { alertLevels } from '#src/domain/triage.ts'
import { criterionKinds } from '#src/rules/change-verdict.ts'
import { disabilityBands } from '#src/rules/disability-score.ts'
import type { Content } from '#src/content/content.ts'
import type { ThresholdPath } from '#src/domain/protocol.ts'
import { measurementDoubts } from '#src/rules/read-measurement.ts'
import { explainedThresholds, structuralRules } from '#src/rules/rule-thresholds.ts'
import { sourceKinds } from '#src/rules/source-kind.ts'

export function wordingKeysOfContent(content: Content): readonly string[] {
  const { gates, groups, signs } = content.triage
  const conditions = [...gates.refusing, ...gates.refusingWithoutClearance, ...gates.limiting, ...gates.noBridge, ...gates.noted]
  const each = (prefix: string, ids: readonly string[]): string[] => ids.map((id) => `${prefix}.${id}`)
  const decisionNames = decisions.map((kind) => kind.replace(' ', '-'))
  return [
    ...each('reasons.client', ruleIds),
    ...each('reasons.therapist', ruleIds),
    ...each('decisions.client', decisionNames),
    ...each('decisions.therapist', decisionNames),
    ...each('explain.client.move', decisionNames),
    ...each('explain.therapist.move', decisionNames),
    ...each('explain.client.origin', [...sourceKinds, 'plan']),
    ...each('explain.client.structure', structuralRules),
    ...each('explain.therapist.structure', structuralRules),
    ...each('explain.client.threshold', explainedThresholds.map(thresholdKey)),
    ...each('explain.therapist.threshold', explainedThresholds.map(thresholdKey)),
    ...each('signs.groups', [...groups, 'health-change']),
    ...each('signs.client', signs.map((sign) => sign.id)),
    ...each('signs.therapist', signs.map((sign) => sign.id)),
    ...each('conditions', conditions),
    ...each('restrictions', content.restrictions),
    ...each('common.control', controls),
    ...each('common.control-short', controls),
    ...each('common.weekday', weekdays),
    ...each('common.direction', directions),
    ...each('common.ladder', ladderIds),
    ...each('session.corrected.of', ['pain-now', 'morning', 'worst-since', 'pain', 'control', 'reserve']),
    ...each('loads.assumptions', Object.keys(content.assumptions)),
    ...each('loads.purpose', ['warmUp', 'start', 'target']),
    ...each('loads.amount', ['band', 'harness']),
    ...each('loads.band', ['no-stretch', 'too-strong', 'starts-high', 'ends-low']),
    ...each('loads.no-estimate', ['no-load', 'no-repetitions', 'too-many-repetitions']),
    ...each('alert.title', alertLevels),
    ...each('alert.others', ['acknowledged', 'contacted', 'cleared']),
    ...each('duty.open', alertLevels),
    ...each('duty.day', weekdays.map((day) => `say-${day}`)),
    ...each('flag', alertLevels.filter((level) => level !== 'routine').map((level) => `nobody-reached-${level}`)),
    ...each('enrolment.signature', signatureKinds),
    ...each('enrolment.known-sign', ['say-left', 'say-right', 'say-both', 'say-none']),
    ...each('enrolment.protocols', [...content.protocols.keys()]),
    ...each('measuring.doubt', measurementDoubts),
    ...each('outcomes.measure', measureIds.filter((id) => id !== 'global-change')),
    ...each('outcomes.population', populations),
    ...each('outcomes.band', disabilityBands),
    ...each('outcomes.limit', criterionKinds),
    ...each('outcomes.error', ['every', 'some', 'no', 'may-be-real', 'unknown']),
    ...each('outcomes.importance', ['every', 'some', 'no']),
  ]
}

/** `pain.comfortableUpTo` stands in the wording as `pain.comfortable-up-to`. */
export function thresholdKey(path: ThresholdPath): string {
  return path.replace(/[A-Z]/g, (letter) => `-${letter.toLowerCase()}`)
}
