import { brandAs, type Instant, type LocalDate } from '#src/domain/identifier.ts'

export interface Reading {
  readonly date: LocalDate
  readonly time: string
}

const formats = new Map<string, Intl.DateTimeFormat>()

/** What clock and calendar in a zone show, read off the runtime's own formatter: it shares no code with src/schedule. */
export function readWallClock(at: Instant, zone: string): Reading {
  const parts = Object.fromEntries(formatOf(zone).formatToParts(at).map((part) => [part.type, part.value]))
  return {
    date: brandAs<LocalDate>(`${parts['year']}-${parts['month']}-${parts['day']}`),
    time: `${parts['hour']}:${parts['minute']}`,
  }
}

/** Every minute of a date as its clock shows it, in the order lived; a skipped one is missing, a repeated one is twice. */
export function minutesLived(date: LocalDate, zone: string): readonly { readonly at: Instant; readonly time: string }[] {
  const noonUtc = Date.parse(`${date}T12:00:00Z`)
  const minutes = Array.from({ length: 54 * 60 }, (_, index) => noonUtc + (index - 27 * 60) * 60_000)
  return minutes
    .map((at) => ({ at, ...readWallClock(at, zone) }))
    .filter((minute) => minute.date === date)
    .map(({ at, time }) => ({ at, time }))
}

function formatOf(zone: string): Intl.DateTimeFormat {
  const known = formats.get(zone)
  if (known) return known
  const format = new Intl.DateTimeFormat('en-GB-u-ca-iso8601-nu-latn', {
    timeZone: zone,
    hourCycle: 'h23',
    year: 'numeric',
    month: '2-digit',
    day: '2-digit',
    hour: '2-digit',
    minute: '2-digit',
  })
  formats.set(zone, format)
  return format
}
