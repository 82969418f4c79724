// The stretches of time that a clinic of the crash script lives through, each begun by moving the clocks there.
import type { Instant } from '#src/domain/identifier.ts'

const hourMs = 3_600_000
const dayMs = 24 * hourMs
/** Monday in Dublin, summer time; the plans to try have sessions on Monday, Wednesday and Friday at 18:00 there. */
const firstDay = Date.parse('2026-06-01T00:00:00+01:00')
const sessionDays: readonly number[] = [0, 2, 4]

export const clinicOpensAt: Instant = firstDay + 12 * hourMs
/** A little late, as people are. */
const lateMs = 20_000

export interface Page {
  readonly at: Instant
  readonly isEvening: boolean
}

/** Evening of the first day, morning of the next and so on, for ever. */
export function* pages(): Generator<Page> {
  for (let day = 0; ; day += 1) {
    if (day > 0) yield { at: firstDay + day * dayMs + 8 * hourMs + lateMs, isEvening: false }
    if (sessionDays.includes(day % 7)) yield { at: firstDay + day * dayMs + 18 * hourMs + lateMs, isEvening: true }
  }
}
