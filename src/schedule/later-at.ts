// Decides: when to remind again after the client pressed "later".
// Source: our choice: in an hour, or at the end of quiet hours that end today.
import type { Instant } from '#src/domain/identifier.ts'
import { isInQuiet, type QuietHours } from './quiet-hours.ts'
import { hourMs, localDateOf, minuteMs, wallTimeOf } from './wall-time.ts'

/** Null where no room is left before local midnight. */
export function laterAt(at: Instant, zone: string, quiet: QuietHours): Instant | null {
  const today = localDateOf(at, zone)
  // Minute by minute, since on the night the clocks change the end of quiet hours may be skipped or come twice.
  for (let later = at + hourMs; localDateOf(later, zone) === today; later += minuteMs) {
    if (!isInQuiet(wallTimeOf(later, zone), quiet)) return later
  }
  return null
}
