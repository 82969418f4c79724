// What a client may want apart from training: a break, other times, another zone, a word to the therapist, to leave.
import type { Chart } from '../chart.ts'
import type { Draft } from '../draft.ts'
import { bringOn, openQuestion, push } from '../turn.ts'
import { clientParty } from './client-party.ts'
import { isNotTalkedOver } from './reminders.ts'

export type Aside = 'pause' | 'times' | 'zone' | 'message' | 'withdrawal'

/** Each is for somebody who trains here; a word to the therapist is for everybody who may. */
const isOpenTo: Readonly<Record<Aside, (chart: Chart) => boolean>> = {
  pause: ({ standing }) => standing === 'active',
  times: ({ standing }) => standing === 'active',
  zone: ({ standing }) => standing === 'active',
  message: ({ standing }) => standing === 'active' || standing === 'withdrawn',
  withdrawal: ({ standing }) => standing === 'active',
}

/**
 * Puts the conversation on top; what lies below is asked again afterwards. A question about a sign, or about a call for
 * help, comes first. False where it is no time for it.
 */
export function beginAside(draft: Draft<Chart>, flow: Aside): boolean {
  const open = openQuestion(draft)?.conversation
  if (!isOpenTo[flow](draft.document) || open?.flow === flow) return false
  if (open !== undefined && isNotTalkedOver(open)) return false
  push(draft, flow)
  bringOn(draft, clientParty)
  return true
}

/** The message in "tell my therapist: the band is torn"; null where only the wish to write is said. */
export function messageIn(text: string): string | null {
  const said = /^[^:]{3,60}:\s*(\S[\s\S]{2,})$/u.exec(text.trim())?.[1]?.trim() ?? ''
  return said === '' || said.length > longestMessage ? null : said
}

const longestMessage = 500
