import fc from 'fast-check'
import { IANAZone } from 'luxon'
import { describe, expect, it } from 'vitest'
import { readZone } from '#src/domain/zone.ts'

describe('a zone is read', () => {
  it.each([
    ['Europe/Berlin', 'Europe/Berlin'],
    ['America/Argentina/San_Juan', 'America/Argentina/San_Juan'],
    ['America/Port-au-Prince', 'America/Port-au-Prince'],
    ['UTC', 'UTC'],
  ])('by its name, %s', (typed, zone) => {
    expect(readZone(typed)).toEqual({ kind: 'zone', zone })
  })

  // IANA time zone database: present names that Node 20 understands but does not list.
  it.each(['Europe/Kyiv', 'Asia/Kolkata', 'Asia/Kathmandu', 'America/Nuuk', 'Asia/Ho_Chi_Minh', 'America/Argentina/Buenos_Aires'])(
    'by a present name that the runtime may not list, %s',
    (zone) => {
      expect(readZone(zone)).toEqual({ kind: 'zone', zone })
    },
  )

  // IANA time zone database, file `backward`: the links from older names.
  it.each([
    ['Asia/Calcutta', 'Asia/Kolkata'],
    ['Europe/Kiev', 'Europe/Kyiv'],
    ['US/Eastern', 'America/New_York'],
    ['us/east-indiana', 'America/Indiana/Indianapolis'],
    ['Asia/Istanbul', 'Europe/Istanbul'],
  ])('as its present name where an older one is typed, %s', (typed, zone) => {
    expect(readZone(typed)).toEqual({ kind: 'zone', zone })
  })

  it.each([
    ['europe/berlin', 'Europe/Berlin'],
    ['EUROPE/BERLIN', 'Europe/Berlin'],
    [' Europe/ Berlin ', 'Europe/Berlin'],
    ['America/New York', 'America/New_York'],
    ['america / port au prince', 'America/Port-au-Prince'],
    ['europe/kyiv', 'Europe/Kyiv'],
    ['America/São Paulo', 'America/Sao_Paulo'],
  ])('with case, blanks and accents forgiven, %j', (typed, zone) => {
    expect(readZone(typed)).toEqual({ kind: 'zone', zone })
  })

  it.each([
    ['new york', 'America/New_York'],
    ['New_York', 'America/New_York'],
    ['Zürich', 'Europe/Zurich'],
    ['kolkata', 'Asia/Kolkata'],
    ['Calcutta', 'Asia/Kolkata'],
    ['Buenos Aires', 'America/Argentina/Buenos_Aires'],
    ['ROME', 'Europe/Rome'],
  ])('by a city that only one zone is named after, %j', (typed, zone) => {
    expect(readZone(typed)).toEqual({ kind: 'zone', zone })
  })
})

describe('a zone is refused', () => {
  it.each(['', '   ', '\n'])('as empty, %j', (typed) => {
    expect(readZone(typed)).toEqual({ kind: 'unusable', reason: 'empty' })
  })

  it.each(['EST', 'CET', 'cest', 'GMT', 'GMT+1', 'UTC+2', 'UTC+02:00', 'utc', 'Z', 'EST5EDT', 'PST8PDT', 'MEZ'])(
    'as an abbreviation, %s',
    (typed) => {
      expect(readZone(typed)).toEqual({ kind: 'unusable', reason: 'abbreviation' })
    },
  )

  it.each(['+01:00', '-5', '−05:00', '+0530', '01:00', 'Etc/GMT+1', 'etc/utc', 'Etc/Unknown'])('as an offset, %s', (typed) => {
    expect(readZone(typed)).toEqual({ kind: 'unusable', reason: 'fixed-offset' })
  })

  const nowhere = ['Mars/Olympus', 'Europe/', '/Berlin', 'SystemV/AST4', 'Factory', 'a'.repeat(5000)]
  const severalOrNone = ['Germany', 'Argentina', 'Indiana', 'San Juan']
  const thisMachine = ['local', 'localtime', 'system', 'default']
  it.each([...nowhere, ...severalOrNone, ...thisMachine])('as unknown, %j', (typed) => {
    expect(readZone(typed)).toEqual({ kind: 'unusable', reason: 'unknown' })
  })
})

describe('whatever is typed', () => {
  it('a zone that is read is one that the calendar knows, and reading it again gives itself', () => {
    const listed = fc.constantFrom(...Intl.supportedValuesOf('timeZone'))
    const typed = fc.oneof(fc.string(), listed, fc.stringMatching(/^[A-Za-z]+\/[A-Za-z_ ]+$/))
    fc.assert(
      fc.property(typed, (text) => {
        const reading = readZone(text)
        if (reading.kind === 'unusable') return
        expect(IANAZone.isValidZone(reading.zone)).toBe(true)
        expect(readZone(reading.zone)).toEqual(reading)
      }),
    )
  })

  it('every zone that the runtime lists is read, and keeps its clock', () => {
    const instants = [Date.UTC(2027, 0, 1), Date.UTC(2027, 6, 1)]
    const clock = (zone: string): readonly number[] => instants.map((at) => IANAZone.create(zone).offset(at))
    const listed = Intl.supportedValuesOf('timeZone')
    const clocks = listed.map(readZone).map((reading) => reading.kind === 'zone' && clock(reading.zone))
    expect(clocks).toEqual(listed.map(clock))
  })
})
