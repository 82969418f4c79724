// What the client reads at the end of a session and after the morning: what was done, what changes next time and why.
import { sideOf } from '#src/domain/direction.ts'
import type { LocalDate } from '#src/domain/identifier.ts'
import { laddersOf } from '#src/rules/plan-ladders.ts'
import { localDateOf } from '#src/schedule/wall-time.ts'
import type { Chart, OpenSession } from '../chart.ts'
import type { Draft } from '../draft.ts'
import { planOf } from './plan-facts.ts'
import { laddersOn } from './prescribe.ts'
import { say } from './say.ts'
import { setsOf } from './session-state.ts'
import type { SettledLadder } from './settle-pending.ts'
import { nextReminderOf } from './when.ts'

/** More reasons than these are kept for "why". */
const reasonsTold = 2

export function saySummary(draft: Draft<Chart>, session: OpenSession): void {
  // "Well done" would mock somebody who could not begin.
  if (session.sets.every((set) => set.report === null)) return
  const { text, words } = say(draft, 'client')
  const lines = session.prescribed.map(({ direction, place, dose }) => {
    const done = setsOf(session, direction).filter((set) => set.report !== null).length
    return text('session.summary.line', { exercise: words.exerciseShort(place.exercise, sideOf(direction)), done, sets: dose.sets })
  })
  draft.say([text(titleOf(session)), ...lines].join('\n'))
}

/** Praise for pushing on would be the wrong lesson where the exercise was stopped. */
function titleOf({ stopped, endedEarly }: OpenSession): string {
  if (stopped.length > 0) return 'session.summary.title-stopped'
  return endedEarly ? 'session.summary.title-ended' : 'session.summary.title'
}

/** Before the morning it is provisional: a bad one, time off or a lock may lower it, and nothing raises it. */
export function sayPrescriptionAhead(draft: Draft<Chart>, ahead: readonly SettledLadder[], isMorningAhead: boolean): void {
  const { text, reason, decision, dose, time } = say(draft, 'client')
  for (const one of ahead) {
    const { place, isHeld } = one.state
    if (isHeld) {
      draft.say(text('session.summary.held'))
      continue
    }
    const why = one.decision.reasons.slice(0, reasonsTold).map(reason).join(' ')
    draft.say(text('session.summary.next', { decision: decision(one.decision), dose: dose(place.exercise, place.dose, null), why }))
  }
  const plan = planOf(draft.document)
  const next = nextReminderOf(draft)
  if (next === null) return
  const values = { time: time(next), turn: turnOf(draft, localDateOf(next, plan.zone)) }
  draft.say(text(isMorningAhead ? 'session.summary.when-provisional' : 'session.summary.when', values))
}

/** What the next session works, where it is not everything: what was done today may have to wait. */
function turnOf(draft: Draft<Chart>, date: LocalDate): string {
  const then = laddersOn(draft, date)
  const { text } = say(draft, 'client')
  const isAll = laddersOf(planOf(draft.document)).length === then.length
  return isAll ? '' : text('session.summary.turn', { ladders: then.map((ladder) => text(`common.ladder.${ladder}`)).join(', ') })
}
