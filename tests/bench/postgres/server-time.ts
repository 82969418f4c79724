import { readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'

/** Linux counts in ticks of ten milliseconds (getconf CLK_TCK). */
const tickMs = 10

/**
 * Processor time of a PostgreSQL server and all that it has started, in ms since it began, as Linux counts it in /proc
 * (https://www.kernel.org/doc/html/latest/filesystems/proc.html, "stat"). NaN elsewhere.
 */
export function processorMs(folder: string): number {
  if (process.platform !== 'linux') return Number.NaN
  const [pid = ''] = readFileSync(join(folder, 'postmaster.pid'), 'utf8').split('\n')
  const all = readdirSync('/proc').filter((name) => /^\d+$/.test(name)).flatMap(readStat)
  const own = all.filter((one) => one.pid === pid || one.parent === pid)
  return own.reduce((sum, one) => sum + one.ticks + (one.pid === pid ? one.ofEnded : 0), 0) * tickMs
}

interface Stat {
  readonly pid: string
  readonly parent: string
  readonly ticks: number
  /** Of children that have ended. */
  readonly ofEnded: number
}

/** None for a process that has ended meanwhile. */
function readStat(pid: string): readonly Stat[] {
  try {
    // The name in brackets may hold anything.
    const text = readFileSync(join('/proc', pid, 'stat'), 'utf8')
    const fields = text.slice(text.lastIndexOf(')') + 2).split(' ')
    const [user = 0, system = 0, endedUser = 0, endedSystem = 0] = fields.slice(11, 15).map(Number)
    return [{ pid, parent: fields[1] ?? '', ticks: user + system, ofEnded: endedUser + endedSystem }]
  } catch {
    return []
  }
}
