// What is told only once it has gone on for long, or has come together: nothing scans for it, each answer and each closed
// session looks.
import type { Place } from '#src/domain/chain.ts'
import { comparePlaces } from '#src/domain/chain.ts'
import type { LadderId } from '#src/domain/direction.ts'
import { locate } from '#src/rules/moves.ts'
import { laddersOf } from '#src/rules/plan-ladders.ts'
import { daysBetween } from '#src/schedule/wall-time.ts'
import type { Chart, Watch } from '../chart.ts'
import type { Draft } from '../draft.ts'
import { chainOf, planOf, protocolOf, stateOf, todayOf } from './plan-facts.ts'
import { raiseRoutine } from './raise-routine.ts'
import { say } from './say.ts'

const nothingYet: Watch = { soreness: null, stepUp: null, illness: [] }

export function watchOf(chart: Chart): Watch {
  return chart.watch ?? nothingYet
}

export function changeWatch(draft: Draft<Chart>, patch: Partial<Watch>): void {
  draft.change({ watch: { ...watchOf(draft.document), ...patch } })
}

/**
 * Pain at rest, in the morning or before a session. Above the usual at every answer for longer than the triage content
 * allows, it is told once; an answer at or below the usual ends it.
 */
export function noteRestPain(draft: Draft<Chart>, pain: number): void {
  const { usualPain } = planOf(draft.document)
  const { soreness } = watchOf(draft.document)
  if (pain <= usualPain) return soreness === null ? undefined : changeWatch(draft, { soreness: null })
  const on = todayOf(draft)
  if (soreness === null) return changeWatch(draft, { soreness: { since: on, isTold: false } })
  const days = daysBetween(soreness.since, on)
  if (soreness.isTold || days <= draft.content.triage.routine.sorenessPastDays) return
  changeWatch(draft, { soreness: { ...soreness, isTold: true } })
  raiseRoutine(draft, { title: say(draft, 'therapist').text('alert.soreness', { days, pain, usual: usualPain }), ladder: null, request: null })
}

/** When a session closes: no ladder has gone beyond its highest place for long, though one still could. */
export function checkStepUp(draft: Draft<Chart>): void {
  const on = todayOf(draft)
  const before = watchOf(draft.document).stepUp
  const now = placesNow(draft)
  const isHigher = ([ladder, place]: readonly [LadderId, Place]): boolean => {
    const highest = before?.highest[ladder]
    return highest === undefined || comparePlaces(place, highest) > 0
  }
  const risen = now.filter(isHigher)
  const highest = { ...before?.highest, ...Object.fromEntries(risen) }
  if (before === null || risen.length > 0) return changeWatch(draft, { stepUp: { since: on, highest } })
  const days = daysBetween(before.since, on)
  if (days < draft.content.triage.routine.noStepUpDays || !mayStillRise(draft, now)) return
  // Counted anew: told again after as long again.
  changeWatch(draft, { stepUp: { since: on, highest } })
  raiseRoutine(draft, { title: say(draft, 'therapist').text('alert.no-step-up', { days }), ladder: null, request: null })
}

function placesNow(draft: Draft<Chart>): readonly (readonly [LadderId, Place])[] {
  return laddersOf(planOf(draft.document)).map((ladder) => {
    const { rung, exercise, dose, standing } = stateOf(draft.document, ladder, draft.content).place
    return [ladder, { rung, exercise, dose, standing }] as const
  })
}

/** Where the rules never add, or everything is at its top, there is nothing to wait for. */
function mayStillRise(draft: Draft<Chart>, now: readonly (readonly [LadderId, Place])[]): boolean {
  const plan = planOf(draft.document)
  if (!protocolOf(plan, draft.content).progress.isAutomatic) return false
  return now.some(([ladder, place]) => {
    const chain = chainOf(plan, ladder, draft.content)
    return locate(chain, place) < chain.places.length - 1
  })
}
