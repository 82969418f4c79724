// The retest of maximal force: the therapist is reminded once, four weeks after the last measurement; nothing waits for it.
import { directions } from '#src/domain/direction.ts'
import { brandAs, type LocalDate } from '#src/domain/identifier.ts'
import type { Plan } from '#src/domain/plan.ts'
import { checkInAt } from '#src/schedule/check-in-at.ts'
import { addDays } from '#src/schedule/wall-time.ts'
import type { Chart } from '../chart.ts'
import type { Draft } from '../draft.ts'
import { withoutTimer, withTimer, type Timer } from '../timer.ts'
import { actButton, tellTherapist } from './alert-message.ts'
import { planOf, protocolOf, todayOf } from './plan-facts.ts'
import { say } from './say.ts'

const dayMs = 24 * 3_600_000
/** A retest that falls due this shortly before the four-weekly review is asked for with it. */
const withReviewMs = 7 * dayMs

/** The timer's matter is the day of the last measurement; one without a date counts from the day it was first met here. */
export function scheduleRetest(draft: Draft<Chart>): void {
  const plan = planOf(draft.document)
  const known = draft.document.timers.find(({ kind }) => kind === 'retest')
  const timers = withoutTimer(draft.document.timers, 'retest')
  if (plan.measurements.length === 0) return draft.change({ timers })
  const measuredOn = lastMeasuredOn(plan) ?? brandAs<LocalDate>(known?.about ?? todayOf(draft))
  const { everyDays } = protocolOf(plan, draft.content).retest
  const dueAt = checkInAt({ on: addDays(measuredOn, everyDays), zone: plan.zone, quiet: plan.schedule.quiet })
  draft.change({ timers: withTimer(timers, { kind: 'retest', about: measuredOn, dueAt }) })
}

function lastMeasuredOn({ measurements }: Plan): LocalDate | null {
  return measurements.flatMap(({ on }) => on ?? []).toSorted().at(-1) ?? null
}

export function remindOfRetest(draft: Draft<Chart>, timer: Timer): void {
  const review = draft.document.timers.find(({ kind }) => kind === 'supervision')
  if (review !== undefined && review.dueAt - draft.at <= withReviewMs) {
    return draft.change({ timers: withTimer(draft.document.timers, { ...timer, dueAt: review.dueAt }) })
  }
  const text = describeRetest(draft, timer)
  tellTherapist(draft, { text, buttons: [[measureButton(draft)]], urgency: 'reply', alert: null })
}

/** Takes over what is due, for whoever tells it with something else; null where nothing is. */
export function takeDueRetest(draft: Draft<Chart>): string | null {
  const due = draft.document.timers.find((timer) => timer.kind === 'retest' && timer.dueAt <= draft.at)
  if (due === undefined) return null
  draft.change({ timers: withoutTimer(draft.document.timers, 'retest') })
  return describeRetest(draft, due)
}

function describeRetest(draft: Draft<Chart>, { about: lastOn }: Timer): string {
  const plan = planOf(draft.document)
  const { text } = say(draft, 'therapist')
  const measured = directions.filter((direction) => plan.measurements.some((one) => one.direction === direction))
  draft.record('retest-due', 'nuchal', { directions: measured, lastOn })
  const names = measured.map((direction) => text(`common.direction.${direction}`)).join(', ')
  return text('measuring.retest-due', { client: plan.client.name, directions: names, on: lastOn })
}

export function measureButton(draft: Draft<Chart>): ReturnType<typeof actButton> {
  return actButton(draft, 'measure', 'now', say(draft, 'therapist').text('acts.press.measure'))
}
