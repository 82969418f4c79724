// Every text that code asks for by a name made up of a prefix and an id.
import { decisions, ruleIds } from '#src/domain/decision.ts'
import { directions, ladderIds } from '#src/domain/direction.ts'
import { weekdays } from '#src/domain/plan.ts'
import { controls } from '#src/domain/set-report.ts'
import { alertLevels } from '#src/domain/triage.ts'
import type { Content } from '#src/content/content.ts'

export function wordingKeysOfContent(content: Content): readonly string[] {
  const { gates, groups, signs } = content.triage
  const conditions = [...gates.refusing, ...gates.refusingWithoutClearance, ...gates.limiting, ...gates.noBridge]
  const each = (prefix: string, ids: readonly string[]): string[] => ids.map((id) => `${prefix}.${id}`)
  const decisionNames = decisions.map((kind) => kind.replace(' ', '-'))
  return [
    ...each('reasons.client', ruleIds),
    ...each('reasons.therapist', ruleIds),
    ...each('decisions.client', decisionNames),
    ...each('decisions.therapist', decisionNames),
    ...each('signs.groups', [...groups, 'health-change']),
    ...each('signs.client', signs.map((sign) => sign.id)),
    ...each('signs.therapist', signs.map((sign) => sign.id)),
    ...each('conditions', conditions),
    ...each('restrictions', content.restrictions),
    ...each('common.control', controls),
    ...each('common.control-short', controls),
    ...each('common.weekday', weekdays),
    ...each('common.direction', directions),
    ...each('common.ladder', ladderIds),
    ...each('alert.title', alertLevels),
  ]
}
