/** A local time that the clocks skip or do not, and what it means. `[calc]` with tzdata 2025b; laws change. */
export interface GapRow {
  readonly zone: string
  readonly date: string
  readonly time: string
  readonly utc: string
  /** What the clock shows at that instant, with its offset in minutes. */
  readonly shown: string
  readonly offsetMinutes: number
}

/** A local time that comes twice. */
export interface OverlapRow {
  readonly zone: string
  readonly date: string
  readonly time: string
  readonly first: string
  readonly second: string
}

/** RFC 5545, 3.3.5, its own two examples [found]. */
export const standardRows = {
  twice: { zone: 'America/New_York', date: '2007-11-04', time: '01:30', utc: '2007-11-04T05:30Z', shown: '01:30', offsetMinutes: -240 },
  skipped: { zone: 'America/New_York', date: '2007-03-11', time: '02:30', utc: '2007-03-11T07:30Z', shown: '03:30', offsetMinutes: -240 },
} as const satisfies Record<string, GapRow>

export const gapRows: readonly GapRow[] = [
  { zone: 'America/New_York', date: '2026-03-08', time: '02:30', utc: '2026-03-08T07:30Z', shown: '03:30', offsetMinutes: -240 },
  { zone: 'America/New_York', date: '2027-03-14', time: '02:30', utc: '2027-03-14T07:30Z', shown: '03:30', offsetMinutes: -240 },
  { zone: 'America/Los_Angeles', date: '2027-03-14', time: '02:30', utc: '2027-03-14T10:30Z', shown: '03:30', offsetMinutes: -420 },
  { zone: 'America/St_Johns', date: '2027-03-14', time: '02:30', utc: '2027-03-14T06:00Z', shown: '03:30', offsetMinutes: -150 },
  { zone: 'America/Phoenix', date: '2027-03-14', time: '02:30', utc: '2027-03-14T09:30Z', shown: '02:30', offsetMinutes: -420 },
  { zone: 'Europe/Berlin', date: '2027-03-28', time: '02:30', utc: '2027-03-28T01:30Z', shown: '03:30', offsetMinutes: 120 },
  { zone: 'Europe/London', date: '2027-03-28', time: '02:30', utc: '2027-03-28T01:30Z', shown: '02:30', offsetMinutes: 60 },
  { zone: 'Europe/London', date: '2027-03-28', time: '01:30', utc: '2027-03-28T01:30Z', shown: '02:30', offsetMinutes: 60 },
  { zone: 'Australia/Sydney', date: '2027-10-03', time: '02:30', utc: '2027-10-02T16:30Z', shown: '03:30', offsetMinutes: 660 },
  { zone: 'Pacific/Auckland', date: '2027-09-26', time: '02:30', utc: '2027-09-25T14:30Z', shown: '03:30', offsetMinutes: 780 },
  { zone: 'Australia/Lord_Howe', date: '2027-10-03', time: '02:15', utc: '2027-10-02T15:45Z', shown: '02:45', offsetMinutes: 660 },
  { zone: 'Africa/Cairo', date: '2027-04-30', time: '00:30', utc: '2027-04-29T22:30Z', shown: '01:30', offsetMinutes: 180 },
  { zone: 'America/Santiago', date: '2027-09-05', time: '00:30', utc: '2027-09-05T04:30Z', shown: '01:30', offsetMinutes: -180 },
  { zone: 'Asia/Kolkata', date: '2027-01-04', time: '02:30', utc: '2027-01-03T21:00Z', shown: '02:30', offsetMinutes: 330 },
  { zone: 'Asia/Kolkata', date: '2027-07-04', time: '02:30', utc: '2027-07-03T21:00Z', shown: '02:30', offsetMinutes: 330 },
]

export const overlapRows: readonly OverlapRow[] = [
  { zone: 'America/New_York', date: '2027-11-07', time: '01:30', first: '2027-11-07T05:30Z', second: '2027-11-07T06:30Z' },
  { zone: 'Europe/Berlin', date: '2027-10-31', time: '02:30', first: '2027-10-31T00:30Z', second: '2027-10-31T01:30Z' },
  { zone: 'Europe/London', date: '2027-10-31', time: '01:30', first: '2027-10-31T00:30Z', second: '2027-10-31T01:30Z' },
  { zone: 'Australia/Sydney', date: '2027-04-04', time: '02:30', first: '2027-04-03T15:30Z', second: '2027-04-03T16:30Z' },
  { zone: 'Pacific/Auckland', date: '2027-04-04', time: '02:30', first: '2027-04-03T13:30Z', second: '2027-04-03T14:30Z' },
  { zone: 'Australia/Lord_Howe', date: '2027-04-04', time: '01:45', first: '2027-04-03T14:45Z', second: '2027-04-03T15:15Z' },
  { zone: 'Africa/Cairo', date: '2027-10-28', time: '23:30', first: '2027-10-28T20:30Z', second: '2027-10-28T21:30Z' },
]

/** A local 18:00 on both sides of a change. */
export const sixInTheEveningRows = [
  { zone: 'America/New_York', date: '2027-03-12', utc: '2027-03-12T23:00Z' },
  { zone: 'America/New_York', date: '2027-03-15', utc: '2027-03-15T22:00Z' },
  { zone: 'Europe/Berlin', date: '2027-03-26', utc: '2027-03-26T17:00Z' },
  { zone: 'Europe/Berlin', date: '2027-03-29', utc: '2027-03-29T16:00Z' },
] as const
