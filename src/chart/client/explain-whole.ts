// The whole chain behind a decision, from the answers over the rules to the numbers and their sources, for either reader.
import type { Reason } from '#src/domain/decision.ts'
import type { LadderId } from '#src/domain/direction.ts'
import type { ThresholdValue } from '#src/domain/protocol.ts'
import { thresholdKey } from '#src/conversation/wording-keys.ts'
import { explainDecision, explainReasons, type Basis, type ExplainedReason, type Explanation, type ThresholdInForce } from '#src/rules/explain-decision.ts'
import { laddersOf } from '#src/rules/plan-ladders.ts'
import { sourceKindOf } from '#src/rules/source-kind.ts'
import type { Chart } from '../chart.ts'
import type { Draft } from '../draft.ts'
import { decisionsTold } from './explain.ts'
import { planOf } from './plan-facts.ts'
import { say, type Saying } from './say.ts'

/** "Why exactly", in the client's words. */
export function explainWhole(draft: Draft<Chart>): string {
  const saying = say(draft, 'client')
  const { text, decision } = saying
  const basis = basisOf(draft)
  const isOneOfMany = laddersOf(planOf(draft.document)).length > 1
  const told = new Set<string>()
  const decided = decisionsTold(draft).map((one) => {
    const values = { decision: decision(one.decision), ladder: text(`common.ladder.${one.ladder}`) }
    const title = text(isOneOfMany ? 'explain.client.title-of' : 'explain.client.title', values)
    return [title, ...linesForClient(saying, explainDecision(one.decision, basis), told)].join('\n')
  })
  const lowered = loweredToday(draft).map(({ reasons }) => {
    const lines = explainReasons(reasons, basis).map((one) => answerForClient(saying, one, told))
    return [text('explain.client.absence'), ...lines].join('\n')
  })
  const parts = [...decided, ...lowered]
  return parts.length > 0 ? parts.join('\n\n') : text('explain.client.nothing')
}

/** The same for the therapist: rule ids, numbers, sources. */
export function explainForTherapist(draft: Draft<Chart>): string {
  const saying = say(draft, 'therapist')
  const { text, decision } = saying
  const basis = basisOf(draft)
  const ladderName = (ladder: LadderId): string => text(`common.ladder.${ladder}`)
  const told = new Set<string>()
  const decided = decisionsTold(draft).map((one) => {
    const title = text('explain.therapist.title', { ladder: ladderName(one.ladder), decision: decision(one.decision) })
    return [title, ...linesForTherapist(saying, explainDecision(one.decision, basis), told)].join('\n')
  })
  const lowered = loweredToday(draft).map(({ ladder, reasons }) => {
    const lines = explainReasons(reasons, basis).flatMap((one) => answerForTherapist(saying, one, told))
    return [text('explain.therapist.absence', { ladder: ladderName(ladder) }), ...lines].join('\n')
  })
  const parts = [...decided, ...lowered]
  if (parts.length === 0) return text('explain.therapist.nothing')
  return [...parts, text('explain.therapist.now', { protocol: basis.protocol.id })].join('\n\n')
}

function basisOf({ document, content }: Draft<Chart>): Basis {
  const plan = planOf(document)
  const protocol = content.protocols.get(plan.protocol)
  const sources = content.protocolSources.get(plan.protocol)
  if (!protocol || !sources) throw new RangeError(`no protocol ${plan.protocol}`)
  return { protocol, sources, overrides: plan.thresholds }
}

/** Doses that time off has lowered for the session that is open; both sides share theirs. */
function loweredToday({ document }: Draft<Chart>): readonly { readonly ladder: LadderId; readonly reasons: readonly Reason[] }[] {
  const lowered = (document.session?.prescribed ?? []).filter(({ reasons }) => reasons.length > 0)
  return lowered.filter(({ ladder }, index) => lowered.findIndex((other) => other.ladder === ladder) === index)
}

function linesForClient(saying: Saying, { kind, reasons, move }: Explanation, told: Set<string>): readonly string[] {
  const moved = [saying.text(`explain.client.move.${kind.replace(' ', '-')}`), ...meanings(saying, move, told)]
  return [...reasons.map((one) => answerForClient(saying, one, told)), moved.join(' ')]
}

/** What a number means is said where it comes up first, not after every set. */
function answerForClient(saying: Saying, { reason, thresholds }: ExplainedReason, told: Set<string>): string {
  const answer = saying.reason(reason)
  const structure = thresholds.length === 0 && isFirst(told, reason.rule) ? [saying.text(`explain.client.structure.${reason.rule}`)] : []
  const meaning = [...structure, ...meanings(saying, thresholds, told)].join(' ')
  return meaning === '' ? saying.text('explain.client.answer', { answer }) : saying.text('explain.client.answer-with-meaning', { answer, meaning })
}

function meanings({ text }: Saying, thresholds: readonly ThresholdInForce[], told: Set<string>): readonly string[] {
  return thresholds
    .filter(({ path }) => isFirst(told, path))
    .map(({ path, value, isSetByTherapist, source }) => {
      const origin = isSetByTherapist ? 'plan' : sourceKindOf(source)
      return `${text(`explain.client.threshold.${thresholdKey(path)}`, { value: asWord(value) })} ${text(`explain.client.origin.${origin}`)}`
    })
}

function linesForTherapist(saying: Saying, { kind, reasons, move }: Explanation, told: Set<string>): readonly string[] {
  const moved = saying.text(`explain.therapist.move.${kind.replace(' ', '-')}`)
  return [...reasons.flatMap((one) => answerForTherapist(saying, one, told)), moved, ...numbers(saying, move, told)]
}

function answerForTherapist(saying: Saying, { reason, thresholds }: ExplainedReason, told: Set<string>): readonly string[] {
  const { text } = saying
  const line = text('explain.therapist.reason', { text: saying.reason(reason), rule: reason.rule })
  const isStructure = thresholds.length === 0 && isFirst(told, reason.rule)
  const structure = isStructure ? [text('explain.therapist.structure-line', { structure: text(`explain.therapist.structure.${reason.rule}`) })] : []
  return [line, ...structure, ...numbers(saying, thresholds, told)]
}

function numbers({ text }: Saying, thresholds: readonly ThresholdInForce[], told: Set<string>): readonly string[] {
  return thresholds
    .filter(({ path }) => isFirst(told, path))
    .map(({ path, value, isSetByTherapist, protocolValue, source }) => {
      const named = (of: ThresholdValue): string => text(`explain.therapist.threshold.${thresholdKey(path)}`, { value: asWord(of) })
      if (!isSetByTherapist) return text('explain.therapist.threshold-line', { threshold: named(value), source })
      return text('explain.therapist.threshold-line-plan', { threshold: named(value), protocol: named(protocolValue), source })
    })
}

function isFirst(told: Set<string>, name: string): boolean {
  if (told.has(name)) return false
  told.add(name)
  return true
}

function asWord(value: ThresholdValue): number | string {
  if (typeof value === 'number') return value
  return typeof value === 'boolean' ? String(value) : value.join(', ')
}
