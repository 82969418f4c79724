// What it takes to start over many charts: time of the whole process, and the most memory it ever had.
import { execFile } from 'node:child_process'
import { fileURLToPath } from 'node:url'
import { promisify } from 'node:util'
import { atMost, type Figure } from '../figure.ts'
import { makeFolder, placeClients, removeFolder } from './clinic-folder.ts'
import type { Pasts } from './past-client.ts'

/** Issue 5, "Speed and memory". */
const limits = { seconds: 5, megabytes: 400 }
const charts = 10_000
/** Some three months, so that the past is played within seconds. */
const pastWeeks = 12

interface Started {
  readonly charts: number
  readonly storeMs: number
  readonly wholeMs: number
  readonly cpuMs: number
  readonly megabytes: number
}

export async function measureStart(pasts: Pasts): Promise<readonly Figure[]> {
  const past = await pasts(pastWeeks)
  const folder = makeFolder()
  try {
    placeClients(folder, past, Array.from({ length: charts }, (_, index) => index + 1))
    const started = await start(folder, past.until)
    if (started.charts !== charts) throw new Error(`${started.charts} charts were found`)
    return [
      atMost(`start with ${charts} charts, seconds`, started.storeMs / 1000, limits.seconds),
      atMost(`start with ${charts} charts, seconds of the whole process`, started.wholeMs / 1000, null),
      atMost(`start with ${charts} charts, seconds of processor`, started.cpuMs / 1000, null),
      atMost(`start with ${charts} charts, megabytes at most`, started.megabytes, limits.megabytes),
    ]
  } finally {
    removeFolder(folder)
  }
}

async function start(folder: string, now: number): Promise<Started> {
  const script = fileURLToPath(new URL('start-clinic.ts', import.meta.url))
  const { stdout } = await promisify(execFile)(process.execPath, ['--import', 'tsx', script, folder, String(now)])
  return JSON.parse(stdout) as Started
}
