// The retest of maximal force: the therapist is reminded once, four weeks after the last measurement; nothing waits for it.
import { directions } from '#src/domain/direction.ts'
import type { LocalDate } from '#src/domain/identifier.ts'
import type { Plan } from '#src/domain/plan.ts'
import { checkInAt } from '#src/schedule/check-in-at.ts'
import { addDays, localDateOf } from '#src/schedule/wall-time.ts'
import type { Chart } from '../chart.ts'
import type { Draft } from '../draft.ts'
import { withoutTimer, withTimer } from '../timer.ts'
import { actButton, tellTherapist } from './alert-message.ts'
import { planOf, protocolOf, todayOf } from './plan-facts.ts'
import { say } from './say.ts'

const dayMs = 24 * 3_600_000
/** A retest that falls due this shortly before the four-weekly review is asked for with it. */
const withReviewMs = 7 * dayMs

/** A measurement without a date counts from the day on which this is worked out first. */
function lastMeasuredOn({ measurements }: Plan, today: LocalDate): LocalDate | null {
  const dates = measurements.map(({ on }) => on ?? today).toSorted()
  return dates.at(-1) ?? null
}

export function scheduleRetest(draft: Draft<Chart>): void {
  const plan = planOf(draft.document)
  const timers = withoutTimer(draft.document.timers, 'retest')
  const measuredOn = lastMeasuredOn(plan, todayOf(draft))
  if (measuredOn === null) return draft.change({ timers })
  const { everyDays } = protocolOf(plan, draft.content).retest
  const dueAt = checkInAt({ on: addDays(measuredOn, everyDays), zone: plan.zone, quiet: plan.schedule.quiet })
  draft.change({ timers: withTimer(timers, { kind: 'retest', about: '', dueAt }) })
}

export function remindOfRetest(draft: Draft<Chart>): void {
  const review = draft.document.timers.find((timer) => timer.kind === 'supervision')
  const isReviewNear = review !== undefined && review.dueAt - draft.at <= withReviewMs
  if (isReviewNear) {
    return draft.change({ timers: withTimer(draft.document.timers, { kind: 'retest', about: '', dueAt: review.dueAt }) })
  }
  const text = describeRetest(draft)
  tellTherapist(draft, { text, buttons: [[measureButton(draft)]], urgency: 'reply', alert: null })
}

/** Takes over what is due, for whoever tells it with something else; null where nothing is. */
export function takeDueRetest(draft: Draft<Chart>): string | null {
  const isDue = draft.document.timers.some((timer) => timer.kind === 'retest' && timer.dueAt <= draft.at)
  if (!isDue) return null
  draft.change({ timers: withoutTimer(draft.document.timers, 'retest') })
  return describeRetest(draft)
}

function describeRetest(draft: Draft<Chart>): string {
  const plan = planOf(draft.document)
  const { text } = say(draft, 'therapist')
  const measured = directions.filter((direction) => plan.measurements.some((one) => one.direction === direction))
  const on = lastMeasuredOn(plan, localDateOf(draft.at, plan.zone)) ?? ''
  draft.record('retest-due', 'nuchal', { directions: measured, lastOn: on })
  const names = measured.map((direction) => text(`common.direction.${direction}`)).join(', ')
  return text('measuring.retest-due', { client: plan.client.name, directions: names, on })
}

export function measureButton(draft: Draft<Chart>): ReturnType<typeof actButton> {
  return actButton(draft, 'measure', 'now', say(draft, 'therapist').text('acts.press.measure'))
}
