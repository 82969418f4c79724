// A sign as it counts for this client.
import type { SignId } from '#src/domain/identifier.ts'
import type { RedFlag } from '#src/domain/triage.ts'
import { graverWithAge } from '#src/rules/graver-with-age.ts'
import type { Chart } from '../chart.ts'
import type { Draft } from '../draft.ts'
import { planOf } from './plan-facts.ts'

/** A sign that was pressed or asked about. */
export function flagOf(draft: Draft<Chart>, sign: SignId): RedFlag {
  const found = draft.content.triage.signs.find((one) => one.id === sign)
  if (!found) throw new RangeError(`no sign ${sign}`)
  return forClient(draft, { sign, level: found.level })
}

/** A sign that was read from words. */
export function forClient(draft: Draft<Chart>, flag: RedFlag): RedFlag {
  return graverWithAge(flag, planOf(draft.document).screening.age)
}
