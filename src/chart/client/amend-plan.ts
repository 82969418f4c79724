// Another plan takes the place of the present one: at once, or once the open session is over.
import type { LadderId } from '#src/domain/direction.ts'
import type { LocalDate } from '#src/domain/identifier.ts'
import type { Plan } from '#src/domain/plan.ts'
import type { Content } from '#src/content/content.ts'
import { carryOver } from '#src/rules/carry-over.ts'
import { laddersOf, plannedLadder } from '#src/rules/plan-ladders.ts'
import { localDateOf } from '#src/schedule/wall-time.ts'
import type { Chart, WaitingPlan } from '../chart.ts'
import type { Draft } from '../draft.ts'
import type { ToldOf } from '../event.ts'
import { withoutTimer } from '../timer.ts'
import { flushNotes } from '../turn.ts'
import { tellTherapist } from './alert-message.ts'
import { clientParty } from './client-party.ts'
import { describeStandings, laddersChanged, standingsOf } from './describe-standings.ts'
import { chainOf, planOf } from './plan-facts.ts'
import { raiseRoutine } from './raise-routine.ts'
import { scheduleRetest } from './retest.ts'
import { say } from './say.ts'
import { recordReview } from './supervision.ts'
import { scheduleReminder } from './when.ts'

/** The plan as it will be once what waits has taken effect; a further change builds on it. */
export function latestPlan(chart: Chart): Plan {
  return chart.amendment?.plan ?? planOf(chart)
}

/** A therapist has written another plan; whoever changes it has looked at the client, which counts as a review. */
export function hearAmended(draft: Draft<Chart>, { plan, by, reason, therapist, second }: ToldOf<'amended'>): void {
  if (draft.document.plan === null) return
  const name = by?.name ?? therapist?.name ?? plan.contacts.therapist.name
  draft.record('plan-amended', name, { reason, protocol: plan.protocol, ladders: plan.ladders })
  if (therapist) draft.change({ therapist })
  draft.change({ second })
  // Who has not joined yet is not reviewed; the time until the first review counts from now all the same.
  if (draft.document.standing === 'active') recordReview(draft, name)
  else draft.change({ reviewedAt: draft.at })
  replyToTherapist(draft, plan, { name, reason })
  changePlan(draft, { plan, isTold: true })
}

/** Puts a plan in force, or lets it wait for the end of the session. */
export function changePlan(draft: Draft<Chart>, waiting: WaitingPlan): void {
  if (draft.document.session === null) return putInForce(draft, waiting)
  const isTold = waiting.isTold || draft.document.amendment?.isTold === true
  draft.change({ amendment: { ...waiting, isTold } })
}

/** Called after every event: a session that kept a plan waiting may have ended with it. */
export function applyWaitingPlan(draft: Draft<Chart>): void {
  const { amendment, session } = draft.document
  if (!amendment || session !== null) return
  putInForce(draft, amendment)
}

function putInForce(draft: Draft<Chart>, { plan, isTold }: WaitingPlan): void {
  const before = draft.document
  const after = underPlan(before, plan, localDateOf(draft.at, plan.zone), draft.content)
  draft.change(after)
  draft.record('plan-in-force', 'nuchal', { ladders: plan.ladders, measurements: plan.measurements })
  if (draft.document.pending === null) draft.change({ timers: withoutTimer(draft.document.timers, 'check-in') })
  if (draft.document.standing === 'active') {
    scheduleReminder(draft)
    scheduleRetest(draft)
  }
  tellHeld(draft, before)
  if (draft.document.contact !== null && draft.document.standing === 'active') tellClient(draft, before, isTold)
  flushNotes(draft, clientParty)
}

/**
 * The chart as another plan makes it. A ladder that stays keeps its state, located in its new chain; one whose start the
 * therapist has changed starts there; a new one has no state yet, and starts as an enrolment does.
 */
export function underPlan(chart: Chart, plan: Plan, on: LocalDate, content: Content): Chart {
  const kept = laddersOf(plan).filter((ladder) => chart.states[ladder] !== undefined)
  const isKeptChain = isSameExercise(chart, plan, content)
  const starts = laddersOf(plan).filter((ladder) => newStartOf(chart, plan, ladder) !== null)
  const states = Object.fromEntries(
    kept.map((ladder) => {
      const state = chart.states[ladder]
      const chain = chainOf(plan, ladder, content)
      return [ladder, state && carryOver({ state, chain, newStart: newStartOf(chart, plan, ladder), on })]
    }),
  )
  return {
    ...chart,
    plan,
    states,
    amendment: null,
    pending: pendingUnder(chart, plan, starts),
    requests: chart.requests.filter(({ ladder, rung, exercise }) => isKeptChain(ladder, rung) && chainHas(plan, ladder, rung, exercise, content)),
    approvals: chart.approvals.filter(({ ladder, rung }) => isKeptChain(ladder, rung)),
  }
}

function newStartOf(chart: Chart, plan: Plan, ladder: LadderId): number | null {
  const [before, after] = [plannedLadder(planOf(chart), ladder), plannedLadder(plan, ladder)]
  return before === null || after === null || before.rung === after.rung ? null : after.rung
}

/** What a session has asked of a ladder that stops is decided no more; one that starts anew is the therapist's to place. */
function pendingUnder(chart: Chart, plan: Plan, starts: readonly LadderId[]): Chart['pending'] {
  const { pending } = chart
  if (pending === null) return null
  const { morning, worstSince } = pending
  const stays = pending.ladders.filter(({ ladder }) => laddersOf(plan).includes(ladder))
  const ladders = stays.map((one) => (starts.includes(one.ladder) ? { ...one, placed: { morning, worstSince } } : one))
  return ladders.length === 0 ? null : { ...pending, ladders }
}

/** What was permitted on a rung was permitted for the exercise it had. */
function isSameExercise(chart: Chart, plan: Plan, content: Content): (ladder: LadderId, rung: number) => boolean {
  const exerciseOn = (of: Plan, ladder: LadderId, rung: number): string | undefined =>
    plannedLadder(of, ladder) === null ? undefined : chainOf(of, ladder, content).places.find((place) => place.rung === rung)?.exercise
  return (ladder, rung) => {
    const after = exerciseOn(plan, ladder, rung)
    return after !== undefined && after === exerciseOn(planOf(chart), ladder, rung)
  }
}

function chainHas(plan: Plan, ladder: LadderId, rung: number, exercise: string, content: Content): boolean {
  return chainOf(plan, ladder, content).places.some((place) => place.rung === rung && place.exercise === exercise)
}

/** Even the lowest dose of the new plan is harder than the present one: it rests until the therapist says. */
function tellHeld(draft: Draft<Chart>, before: Chart): void {
  for (const ladder of laddersOf(planOf(draft.document))) {
    if (draft.document.states[ladder]?.isHeld !== true || before.states[ladder]?.isHeld === true) continue
    const { text } = say(draft, 'therapist')
    raiseRoutine(draft, { title: text('amended.held', { ladder: text(`common.ladder.${ladder}`) }), ladder, request: 'lowest-dose' })
  }
}

function tellClient(draft: Draft<Chart>, before: Chart, isTold: boolean): void {
  const { text } = say(draft, 'client')
  const plan = planOf(draft.document)
  const old = planOf(before)
  const names = (ladders: readonly LadderId[]): string => ladders.map((ladder) => text(`common.ladder.${ladder}`)).join(', ')
  const added = laddersOf(plan).filter((ladder) => plannedLadder(old, ladder) === null)
  const removed = laddersOf(old).filter((ladder) => plannedLadder(plan, ladder) === null)
  const changed = laddersChanged(draft, before).filter((ladder) => !added.includes(ladder))
  if (!isTold && changed.length === 0) return
  const days = plan.schedule.days.map((day) => text(`common.weekday.${day}`)).join(', ')
  const isRescheduled = JSON.stringify(plan.schedule) !== JSON.stringify(old.schedule)
  draft.say(
    [
      text(isTold ? 'amended.client.plan' : 'amended.client.measured'),
      ...(added.length === 0 ? [] : [text('amended.client.added', { ladders: names(added) })]),
      ...(removed.length === 0 ? [] : [text('amended.client.removed', { ladders: names(removed) })]),
      ...describeStandings(draft, changed),
      ...(isRescheduled ? [text('amended.client.schedule', { days, time: plan.schedule.time })] : []),
      text('amended.client.questions'),
    ].join('\n'),
  )
}

/** Before and after, so that nobody has to compare two files. */
function replyToTherapist(draft: Draft<Chart>, plan: Plan, { name, reason }: { readonly name: string; readonly reason: string }): void {
  const { text } = say(draft, 'therapist')
  const lines = changesUnder(draft, plan)
  const isOpen = draft.document.session !== null
  const title = text('amended.therapist', { client: plan.client.name, name, reason, when: isOpen ? 'open' : 'next' })
  tellTherapist(draft, { text: [title, ...lines].join('\n'), buttons: [], urgency: 'reply', alert: null })
}

/** Every ladder's dose as things stand and as another plan would make it. */
export function changesUnder(draft: Draft<Chart>, plan: Plan): readonly string[] {
  const { text } = say(draft, 'therapist')
  const before = draft.document
  const [then, now] = [standingsOf(draft, before), standingsOf(draft, underPlan(before, plan, localDateOf(draft.at, plan.zone), draft.content))]
  const ladders = [...new Set([...laddersOf(planOf(before)), ...laddersOf(plan)])]
  return ladders.map((ladder) => {
    const values = { ladder: text(`common.ladder.${ladder}`), before: then.get(ladder) ?? text('common.dash'), after: now.get(ladder) ?? text('common.dash') }
    return text(values.before === values.after ? 'amended.same' : 'amended.change', values)
  })
}
