import { execFile } from 'node:child_process'
import { fileURLToPath } from 'node:url'
import { promisify } from 'node:util'
import { describe, expect, it } from 'vitest'

interface Printed {
  readonly machineZone: string
  readonly machineNoon: string
  readonly byToday: readonly unknown[]
  readonly leftToLuxon: readonly (readonly number[])[]
}

/** A process is started for each zone: within one, the zone is read once and cached in too many places to trust. */
async function printOn(machineZone: string): Promise<Printed> {
  const script = fileURLToPath(new URL('./print-instants.ts', import.meta.url))
  const { stdout } = await promisify(execFile)(process.execPath, ['--import', 'tsx', script], {
    env: { ...process.env, TZ: machineZone, LC_ALL: 'de_DE.UTF-8', LANG: 'de_DE.UTF-8' },
  })
  return JSON.parse(stdout) as Printed
}

describe('what the schedule works out', () => {
  it('is the same on every machine and on every day', { timeout: 120_000 }, async () => {
    const printed: Printed[] = []
    for (const zone of ['UTC', 'America/New_York', 'Pacific/Kiritimati', 'Australia/Lord_Howe']) printed.push(await printOn(zone))

    expect(printed.map(({ machineZone, machineNoon }) => [machineZone, machineNoon])).toEqual([
      ['UTC', '2027-01-04T12:00:00.000Z'],
      ['America/New_York', '2027-01-04T17:00:00.000Z'],
      ['Pacific/Kiritimati', '2027-01-03T22:00:00.000Z'],
      ['Australia/Lord_Howe', '2027-01-04T01:00:00.000Z'],
    ])
    const reference = printed[0]?.byToday[0]
    expect(reference).toHaveLength(22)
    const days = printed.flatMap(({ byToday }) => byToday)
    expect(days).toHaveLength(20)
    expect(days).toEqual(days.map(() => reference))
    // github.com/moment/luxon/issues/1089: the day does change what luxon chooses for a time that comes twice.
    const chosen = printed.flatMap(({ leftToLuxon }) => leftToLuxon).map((instants) => JSON.stringify(instants))
    expect(new Set(chosen).size).toBeGreaterThan(1)
  })
})
