// The red-flag screen: short before each session, in full when it is due.
import type { Option } from '#src/conversation/question.ts'
import { noneOption } from '#src/conversation/questions/choices.ts'
import type { Instant } from '#src/domain/identifier.ts'
import { daysBetween, localDateOf } from '#src/schedule/wall-time.ts'
import type { Chart } from '../chart.ts'
import type { Draft } from '../draft.ts'
import { planOf, todayOf } from './plan-facts.ts'

/** In full before the first session, after a lock, and as often as the triage content says. */
export function isFullScreenDue(draft: Draft<Chart>): boolean {
  const { lastFullScreenAt, lastSessionAt } = draft.document
  const { fullEveryDays, fullAfterDaysOff } = draft.content.triage.screen
  if (lastFullScreenAt === null || daysSince(draft, lastFullScreenAt) >= fullEveryDays) return true
  return lastSessionAt !== null && daysSince(draft, lastSessionAt) > fullAfterDaysOff && lastFullScreenAt <= lastSessionAt
}

function daysSince(draft: Draft<Chart>, at: Instant): number {
  return daysBetween(localDateOf(at, planOf(draft.document).zone), todayOf(draft))
}

/** Some groups are asked only of whoever has a condition that makes them matter. */
function groupsFor({ document, content }: Draft<Chart>): readonly string[] {
  const { conditions } = planOf(document).screening
  const { groups, groupsOnlyWith } = content.triage
  return groups.filter((group) => groupsOnlyWith[group]?.some((condition) => conditions.includes(condition)) ?? true)
}

// "Ready", sent twice in haste, must not pass for an answer to the safety check.
const noneOfThese: Option = { value: noneOption, words: 'common.none-of-these', saidBy: ['none'] }
/** No list holds all that can be wrong with somebody. */
const somethingElse: Option = { value: 'something-else', words: 'signs.client.something-else', saidAs: 'symptom.say-something-else' }

/** Before a session. */
export function screenOptions(draft: Draft<Chart>): readonly Option[] {
  const change = { value: 'health-change', words: 'signs.groups.health-change' }
  return [...groupOptions(draft), ...(isFullScreenDue(draft) ? [change] : []), noneOfThese]
}

/** When something may be wrong. */
export function signGroupOptions(draft: Draft<Chart>): readonly Option[] {
  return [...groupOptions(draft), somethingElse, noneOfThese]
}

function groupOptions(draft: Draft<Chart>): readonly Option[] {
  return groupsFor(draft).map((group) => ({ value: group, words: `signs.groups.${group}` }))
}

export function signOptions(draft: Draft<Chart>, group: string): readonly Option[] {
  const signs = draft.content.triage.signs.filter((sign) => sign.group === group)
  return [
    ...signs.map((sign) => ({ value: sign.id, words: `signs.client.${sign.id}` })),
    somethingElse,
    noneOfThese,
  ]
}
