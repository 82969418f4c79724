import type { Instant } from '#src/domain/identifier.ts'
import { wallTimeOf } from './wall-time.ts'

/** A bare `en` would put the month before the day. */
const localeOf: Readonly<Record<string, string>> = { en: 'en-GB' }

/** The calendar day alone, e.g. "Mon 4 Jan". */
export function describeDay(at: Instant, zone: string, language: string): string {
  return formatterOf(zone, language).format(at)
}

/** Making a formatter costs a hundred times its use; a clinic has few zones. */
const formatters = new Map<string, Intl.DateTimeFormat>()

/** An instant as a clock and calendar in `zone` show it, e.g. "Mon 4 Jan, 18:00". */
export function describeInstant(at: Instant, zone: string, language: string): string {
  // The two are put together here because runtimes differ in how they join a date and a time.
  return `${formatterOf(zone, language).format(at)}, ${wallTimeOf(at, zone)}`
}

function formatterOf(zone: string, language: string): Intl.DateTimeFormat {
  const key = `${language} ${zone}`
  const known = formatters.get(key)
  if (known) return known
  const options = { timeZone: zone, calendar: 'gregory', weekday: 'short', day: 'numeric', month: 'short' } as const
  const formatter = new Intl.DateTimeFormat(localeOf[language] ?? language, options)
  formatters.set(key, formatter)
  return formatter
}
