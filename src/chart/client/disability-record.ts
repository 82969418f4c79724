// The disability scores of a client, which come from a therapist's desk.
import { localDateOf } from '#src/schedule/wall-time.ts'
import { scoreDisability } from '#src/rules/disability-score.ts'
import type { Chart } from '../chart.ts'
import type { Draft } from '../draft.ts'
import type { Actor, ToldOf } from '../event.ts'
import { keep } from '../outcomes.ts'
import { tellDesk } from './alert-message.ts'
import { planOf } from './plan-facts.ts'
import { say } from './say.ts'

/** The item scores are asked for at the therapist's desk, and come back as one; nothing is said here. */
export function askForScores(draft: Draft<Chart>, by: Actor): '' {
  const { outcomes, id } = draft.document
  const { client, zone } = planOf(draft.document)
  const last = outcomes.disability.at(-1)
  const score = last && scoreDisability(last.items)
  const known = score?.kind === 'scored' ? { on: localDateOf(last?.at ?? draft.at, zone), raw: score.raw } : null
  draft.tell(by.desk, { kind: 'score', chart: id, client: client.name, last: known })
  return ''
}

export function hearScored(draft: Draft<Chart>, { by, items }: ToldOf<'scored'>): void {
  if (draft.document.standing === 'blank') return
  const { outcomes } = draft.document
  draft.change({ outcomes: { ...outcomes, disability: keep(outcomes.disability, { at: draft.at, items }) } })
  draft.record('disability', by.name, { items, score: scoreDisability(items) })
  const text = say(draft, 'therapist').text('disability.saved', { client: planOf(draft.document).client.name })
  tellDesk(draft, by.desk, { text, buttons: [], urgency: 'reply', alert: null })
}
