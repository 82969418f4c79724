// Maximal tests: whether one may be entered now, and what it changes.
import { ladderOf, type Direction, type LadderId } from '#src/domain/direction.ts'
import type { Measurement, Plan } from '#src/domain/plan.ts'
import type { Pain } from '#src/domain/set-report.ts'
import { assumptionsFor } from '#src/rules/assumptions-for.ts'
import { mayTestMaximum } from '#src/rules/maximal-test.ts'
import { strengthGain } from '#src/rules/strength-gain.ts'
import { latestOf, measuredAs, sideDifference, trialSpread } from '#src/rules/usable-maximum.ts'
import type { Chart, OpenSession } from '../chart.ts'
import type { Draft } from '../draft.ts'
import type { Actor, ToldOf } from '../event.ts'
import { tellDesk } from './alert-message.ts'
import { changePlan, changesUnder, latestPlan } from './amend-plan.ts'
import { planOf, protocolOf } from './plan-facts.ts'
import { say } from './say.ts'

/** Opens the questions at the therapist's desk, or says why no maximal test is taken now. */
export function offerMeasuring(draft: Draft<Chart>, by: Actor): string {
  const hindrance = hindranceOf(draft)
  if (hindrance !== null) return hindrance
  const plan = latestPlan(draft.document)
  const directions = plan.ladders.map(({ direction }) => direction)
  draft.tell(by.desk, { kind: 'measure', chart: draft.document.id, client: plan.client.name, directions })
  return ''
}

function hindranceOf(draft: Draft<Chart>): string | null {
  const chart = draft.document
  const plan = planOf(chart)
  const lastPain = lastPainOf(chart)
  const verdict = mayTestMaximum({ isLocked: chart.lock !== null, lastPain, usualPain: plan.usualPain, protocol: protocolOf(plan, draft.content) })
  const { kind, ...values } = verdict
  return kind === 'allowed' ? null : say(draft, 'therapist').text(`measuring.refused.${kind}`, { client: plan.client.name, ...values })
}

/** The worst of what was told last: in the open session, else since the last one, else in it. */
function lastPainOf({ session, pending, history }: Chart): Pain | null {
  const told = [session ? painsOf(session) : [], [pending?.morning, pending?.worstSince], [history.at(-1)?.worstPain]]
  const latest = told.map((pains) => pains.filter((pain) => pain != null)).find((pains) => pains.length > 0)
  return latest === undefined ? null : Math.max(...latest)
}

function painsOf({ painNow, sets, underWay }: OpenSession): readonly (Pain | null | undefined)[] {
  return [painNow, ...sets.map(({ report }) => report?.pain), underWay?.pain]
}

export function hearMeasured(draft: Draft<Chart>, { by, measurements }: ToldOf<'measured'>): void {
  if (draft.document.plan === null) return
  const reply = (answer: string): void => tellDesk(draft, by.desk, { text: answer, buttons: [], urgency: 'reply', alert: null })
  const hindrance = hindranceOf(draft)
  if (hindrance !== null) return reply(hindrance)
  const before = latestPlan(draft.document)
  const own = measurements.filter(({ direction }) => before.ladders.some((ladder) => ladder.direction === direction))
  const plan: Plan = { ...before, measurements: [...before.measurements, ...own] }
  draft.record('measured', by.name, { measurements: own })
  reply(describeMeasured(draft, before, plan, own))
  changePlan(draft, { plan, isTold: false })
}

function describeMeasured(draft: Draft<Chart>, before: Plan, plan: Plan, own: readonly Measurement[]): string {
  const { text } = say(draft, 'therapist')
  const ladders = [...new Set(own.map(({ direction }) => ladderOf(direction)))]
  const when = draft.document.session === null ? 'next' : 'open'
  return [
    text('measuring.saved', { client: plan.client.name, when }),
    ...own.map((measurement) => describeGain(draft, before, measurement)),
    ...own.flatMap((measurement) => describeSpread(draft, measurement)),
    ...ladders.flatMap((ladder) => describeSides(draft, plan, ladder)),
    text('measuring.doses'),
    ...changesUnder(draft, plan),
  ].join('\n')
}

/** Before and after of one direction; the gain with the error of measuring, where one is published for it. */
function describeGain(draft: Draft<Chart>, before: Plan, measurement: Measurement): string {
  const { text } = say(draft, 'therapist')
  const { direction } = measurement
  const values = { direction: text(`common.direction.${direction}`), force: measurement.force, unit: measurement.unit }
  const last = latestOf(before.measurements, direction)
  if (last === undefined) return text('measuring.first', values)
  const assumptions = assumptionsFor(before.assumptions, draft.content.assumptions)
  const gain = strengthGain(ladderOf(direction), measuredAs(last, assumptions), measuredAs(measurement, assumptions))
  const error = gain.error === null ? 'unknown' : gain.error.isWithin ? 'within' : 'beyond'
  const numbers = { before: rounded(gain.before), after: rounded(gain.after), percent: Math.round(gain.percent), detectable: rounded(gain.error?.detectable95 ?? 0) }
  return text('measuring.gain', { ...values, ...numbers, quantity: gain.quantity === 'forceN' ? 'N' : 'Nm', error, sign: gain.percent < 0 ? 'loss' : 'gain' })
}

function describeSpread(draft: Draft<Chart>, { direction, trials }: Measurement): readonly string[] {
  const spread = trialSpread(trials ?? [])
  if (spread?.isTold !== true) return []
  return [sayOf(draft, 'measuring.spread', direction, spread.share)]
}

function describeSides(draft: Draft<Chart>, plan: Plan, ladder: LadderId): readonly string[] {
  const difference = sideDifference(plan.measurements, ladder)
  if (difference?.isTold !== true) return []
  const { text } = say(draft, 'therapist')
  return [text('measuring.sides', { ladder: text(`common.ladder.${ladder}`), percent: Math.round(100 * difference.share) })]
}

function sayOf(draft: Draft<Chart>, key: string, direction: Direction, share: number): string {
  const { text } = say(draft, 'therapist')
  return text(key, { direction: text(`common.direction.${direction}`), percent: Math.round(100 * share) })
}

function rounded(value: number): number {
  return Math.round(10 * value) / 10
}
