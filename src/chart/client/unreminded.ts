// What becomes of the question of a reminder that was not sent, or of which nobody knows whether it was.
import type { Chart } from '../chart.ts'
import type { Draft } from '../draft.ts'
import type { EventOf } from '../event.ts'
import { bringOn } from '../turn.ts'
import { clientParty } from './client-party.ts'
import { say } from './say.ts'

export function hearUnreminded(draft: Draft<Chart>, { effect, reason }: EventOf<'unreminded'>): void {
  const { prompt, isReachable } = draft.document
  // Answered, or asked otherwise since.
  if (prompt === null || prompt.effect !== effect.id || !isReachable) return
  if (reason === 'late') return draft.record('reminder-skipped', 'nuchal', { dueAt: prompt.askedAt, isMissed: true })
  draft.say(say(draft, 'client').text('common.unheard.presses'))
  bringOn(draft, clientParty)
}
