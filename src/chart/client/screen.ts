// The red-flag screen: short before each session, in full when it is due.
import type { Option } from '#src/conversation/question.ts'
import { noneOption } from '#src/conversation/questions/choices.ts'
import type { Chart } from '../chart.ts'
import type { Draft } from '../draft.ts'

const dayMs = 24 * 3_600_000
/** In full at enrolment, every four weeks, after a lock and after more than two weeks off. */
const fullEveryMs = 28 * dayMs
const fullAfterOffMs = 14 * dayMs

export function isFullScreenDue({ document, at }: Draft<Chart>): boolean {
  const { lastFullScreenAt, lastSessionAt } = document
  if (lastFullScreenAt === null || at - lastFullScreenAt >= fullEveryMs) return true
  return lastSessionAt !== null && at - lastSessionAt > fullAfterOffMs && lastFullScreenAt <= lastSessionAt
}

export function screenOptions(draft: Draft<Chart>, isWithHealthChange: boolean): readonly Option[] {
  const groups = draft.content.triage.groups.map((group) => ({ value: group, words: `signs.groups.${group}` }))
  const change = { value: 'health-change', words: 'signs.groups.health-change' }
  // "Ready", sent twice in haste, must not pass for an answer to the safety check.
  const none = { value: noneOption, words: 'common.none-of-these', saidBy: ['none'] as const }
  return [...groups, ...(isWithHealthChange && isFullScreenDue(draft) ? [change] : []), none]
}

export function signOptions(draft: Draft<Chart>, group: string): readonly Option[] {
  const signs = draft.content.triage.signs.filter((sign) => sign.group === group)
  return [
    ...signs.map((sign) => ({ value: sign.id, words: `signs.client.${sign.id}` })),
    { value: noneOption, words: 'common.none-of-these', saidBy: ['none'] },
  ]
}
