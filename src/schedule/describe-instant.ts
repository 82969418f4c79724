import type { Instant } from '#src/domain/identifier.ts'
import { wallTimeOf } from './wall-time.ts'

/** A bare `en` would put the month before the day. */
const localeOf: Readonly<Record<string, string>> = { en: 'en-GB' }

/** An instant as a clock and calendar in `zone` show it, e.g. "Mon 4 Jan, 18:00". */
export function describeInstant(at: Instant, zone: string, language: string): string {
  const date = new Intl.DateTimeFormat(localeOf[language] ?? language, {
    timeZone: zone,
    calendar: 'gregory',
    weekday: 'short',
    day: 'numeric',
    month: 'short',
  })
  // The two are put together here because runtimes differ in how they join a date and a time.
  return `${date.format(at)}, ${wallTimeOf(at, zone)}`
}
