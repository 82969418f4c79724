// A sign as it counts for this client: with their age, their history, and what they have told before.
import type { SignId } from '#src/domain/identifier.ts'
import type { RedFlag } from '#src/domain/triage.ts'
import { graverTogether } from '#src/rules/graver-together.ts'
import { graverWithAge } from '#src/rules/graver-with-age.ts'
import { daysBetween, localDateOf } from '#src/schedule/wall-time.ts'
import type { Chart } from '../chart.ts'
import type { Draft } from '../draft.ts'
import { planOf, todayOf } from './plan-facts.ts'
import { say } from './say.ts'
import { changeWatch, watchOf } from './watch.ts'

/** A sign that was pressed or asked about. */
export function flagOf(draft: Draft<Chart>, sign: SignId): RedFlag {
  const found = draft.content.triage.signs.find((one) => one.id === sign)
  if (!found) throw new RangeError('a sign that the triage content does not know')
  return forClient(draft, { sign, level: found.level })
}

/** A sign that was read from words. */
export function forClient(draft: Draft<Chart>, flag: RedFlag): RedFlag {
  const { age, conditions } = planOf(draft.document).screening
  return graverTogether(graverWithAge(flag, age), illnessTold(draft), conditions, draft.content.triage.illness)
}

/** The signs of general illness told lately enough to count together with a new one. */
function illnessTold(draft: Draft<Chart>): readonly SignId[] {
  const { zone } = planOf(draft.document)
  const { togetherWithinDays } = draft.content.triage.illness
  const isRecent = (at: number): boolean => daysBetween(localDateOf(at, zone), todayOf(draft)) <= togetherWithinDays
  return watchOf(draft.document).illness.filter(({ at }) => isRecent(at)).map(({ sign }) => sign)
}

/** Remembers signs of general illness, so that a second one is not taken for the first. */
export function noteIllness(draft: Draft<Chart>, flags: readonly RedFlag[]): void {
  const { signs } = draft.content.triage.illness
  const told = flags.filter(({ sign }) => signs.includes(sign)).map(({ sign }) => ({ sign, at: draft.at }))
  if (told.length === 0) return
  const others = watchOf(draft.document).illness.filter(({ sign }) => told.every((one) => one.sign !== sign))
  changeWatch(draft, { illness: [...others, ...told] })
}

/** The signs as the therapist reads them, with what makes one of general illness weigh more. */
export function nameFlags(draft: Draft<Chart>, flags: readonly RedFlag[]): string {
  const { text } = say(draft, 'therapist')
  const name = (sign: string): string => text(`signs.therapist.${sign}`)
  const signs = flags.map(({ sign }) => name(sign)).join('; ')
  const { illness } = draft.content.triage
  if (flags.some(({ sign, level }) => level === 'urgent' && illness.signs.includes(sign))) {
    const grave = planOf(draft.document).screening.conditions.filter((condition) => illness.urgentAloneWith.includes(condition))
    return text('signs.with-history', { signs, conditions: grave.map((condition) => text(`conditions.${condition}`)).join(', ') })
  }
  const before = flags.some(({ sign }) => sign === 'two-illness-signs') ? illnessTold(draft) : []
  return before.length === 0 ? signs : text('signs.told-before', { signs, before: before.map(name).join('; ') })
}
