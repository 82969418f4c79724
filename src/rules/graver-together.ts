// Decides: what a sign of general illness weighs. One alone is told and does not lock; two, also told apart, are urgent; one
// alone is urgent in whoever has a condition that makes it graver, such as past cancer.
// Source: Finucane 2020 (judge signs together; past cancer in its list, from memory); the effect and the days are our choice,
// in content/triage.yaml. Reviewed 2026-11.
import { brandAs, type SignId } from '#src/domain/identifier.ts'
import type { IllnessRule, RedFlag } from '#src/domain/triage.ts'

const together: RedFlag = { level: 'urgent', sign: brandAs<SignId>('two-illness-signs') }

/** `toldBefore`: the signs of illness told within the days that count as together. The same one told again is one. */
export function graverTogether(flag: RedFlag, toldBefore: readonly string[], conditions: readonly string[], rule: IllnessRule): RedFlag {
  if (flag.level !== 'routine' || !rule.signs.includes(flag.sign)) return flag
  if (toldBefore.some((other) => other !== flag.sign)) return together
  return conditions.some((condition) => rule.urgentAloneWith.includes(condition)) ? { ...flag, level: 'urgent' } : flag
}
