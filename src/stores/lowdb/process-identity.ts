import { randomUUID } from 'node:crypto'
import { readFileSync, readlinkSync } from 'node:fs'
import { hostname, uptime } from 'node:os'
import { z } from 'zod'
import { readErrorCode } from '../store-failure.ts'

/** Who holds a folder. What the system does not tell is null. */
export const lockHolderShape = z.object({
  pid: z.int().positive(),
  /** In clock ticks since the boot: tells a process from a later one with the same number. */
  startedAt: z.string().nullable(),
  /** The boot's id, or `since:` and its second by the clock. */
  boot: z.string(),
  /** The process id namespace: numbers mean nothing outside it. */
  namespace: z.string().nullable(),
  host: z.string(),
  token: z.string(),
})
export type LockHolder = z.infer<typeof lockHolderShape>

/** This process, with a token of this moment. */
export function describeOwnProcess(): LockHolder {
  return {
    pid: process.pid,
    startedAt: readProcess(process.pid)?.startedAt ?? null,
    boot: readOrNull(() => readFileSync('/proc/sys/kernel/random/boot_id', 'utf8').trim()) ?? describeBootTime(),
    namespace: readOrNull(() => readlinkSync('/proc/self/ns/pid')),
    host: hostname(),
    token: randomUUID(),
  }
}

/** Whether the holder still runs; only meaningful for a holder of this boot and namespace. */
export function isHolderAlive(holder: LockHolder): boolean {
  try {
    process.kill(holder.pid, 0)
  } catch (error) {
    // EPERM: it runs as another user.
    return readErrorCode(error) !== 'ESRCH'
  }
  const running = readProcess(holder.pid)
  if (running === null) return true
  const isGone = running.state === 'Z' || running.state === 'X'
  const isAnother = holder.startedAt !== null && running.startedAt !== holder.startedAt
  return !isGone && !isAnother
}

/** Our choice: clocks are set by seconds while a machine runs, and no machine boots twice within ten minutes unseen. */
const bootToleranceSeconds = 600

export function isSameBoot(a: string, b: string): boolean {
  const [since, other] = [parseBootTime(a), parseBootTime(b)]
  if (since === null || other === null) return a === b
  return Math.abs(since - other) <= bootToleranceSeconds
}

function describeBootTime(): string {
  return `since:${Math.round(Date.now() / 1000 - uptime())}`
}

function parseBootTime(boot: string): number | null {
  return boot.startsWith('since:') ? Number(boot.slice('since:'.length)) : null
}

/** Fields 3 and 22 of /proc/PID/stat (proc_pid_stat(5)); the second field is a name that may hold blanks and brackets. */
function readProcess(pid: number): { readonly state: string; readonly startedAt: string } | null {
  const stat = readOrNull(() => readFileSync(`/proc/${pid}/stat`, 'utf8'))
  const fields = stat?.slice(stat.lastIndexOf(')') + 2).split(' ') ?? []
  const [state, startedAt] = [fields[0], fields[22 - 3]]
  return state === undefined || startedAt === undefined ? null : { state, startedAt }
}

function readOrNull<T>(read: () => T): T | null {
  try {
    return read()
  } catch {
    return null
  }
}
