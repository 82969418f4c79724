// What only the running process knows (what still waits for a network, when one was last heard), left in the data folder for
// `status`: counts and names, no addresses and no texts.
import { mkdir, readFile, rename, rm, writeFile } from 'node:fs/promises'
import { join } from 'node:path'
import { z } from 'zod'
import type { Delivery } from '#src/delivery/delivery.ts'
import type { Wait } from '#src/delivery/wait.ts'
import type { Instant } from '#src/domain/identifier.ts'
import { urgencies } from '#src/domain/message.ts'
import type { Clock } from '#src/ports/clock.ts'
import type { Log } from '#src/ports/log.ts'

const instant = z.number()

const shape = z.object({
  format: z.literal(1),
  /** When it was written. */
  at: instant,
  isStopped: z.boolean(),
  waiting: z.array(z.object({ channel: z.string(), urgency: z.enum(urgencies), count: z.int(), since: instant })),
  /** When each network was last heard; null where it has not been yet. */
  heard: z.array(z.object({ channel: z.string(), at: instant.nullable() })),
})
export type RunningState = Readonly<z.infer<typeof shape>>

/** Our choice; the file is one small write. */
const everyMs = 10_000
/** Our choice: a process that has written nothing for so long does not run, or cannot write. */
export const silentAfterMs = 60_000

export interface RunningStateParts {
  readonly folder: string
  readonly delivery: Pick<Delivery, 'waiting'>
  /** The machine's, also where the clinic's has been moved on. */
  readonly clock: Clock
  readonly wait: Wait
  readonly log: Log
  readonly heard: () => RunningState['heard']
}

/** Writes the state from now on until it is stopped. A folder that cannot be written is the store's to complain of. */
export function keepRunningState({ folder, delivery, clock, wait, log, heard }: RunningStateParts): { stop(): Promise<void> } {
  const halt = new AbortController()
  const write = async (isStopped: boolean): Promise<void> => {
    const state: RunningState = { format: 1, at: clock.now(), isStopped, waiting: [...delivery.waiting()], heard: heard() }
    await writeState(folder, state).catch(() => log.warn('state-not-written', {}))
  }
  const run = async (): Promise<void> => {
    while (!halt.signal.aborted) {
      await write(false)
      await wait(everyMs, halt.signal)
    }
  }
  const running = run()
  return {
    async stop() {
      halt.abort()
      await running
      await write(true)
    },
  }
}

function pathIn(folder: string): string {
  return join(folder, 'running.json')
}

async function writeState(folder: string, state: RunningState): Promise<void> {
  const draft = `${pathIn(folder)}.draft`
  await mkdir(folder, { recursive: true, mode: 0o700 })
  try {
    await writeFile(draft, JSON.stringify(state), { mode: 0o600 })
    await rename(draft, pathIn(folder))
  } catch (error) {
    await rm(draft, { force: true })
    throw error
  }
}

/** Null where no process has left one, or what it left cannot be read. */
export async function readRunningState(folder: string): Promise<RunningState | null> {
  try {
    return shape.parse(JSON.parse(await readFile(pathIn(folder), 'utf8')))
  } catch {
    return null
  }
}

/** When the process that left the state had last heard a network; null where it is not known. */
export function lastHeardIn(state: RunningState | null, channel: string): Instant | null {
  return state?.heard.find((one) => one.channel === channel)?.at ?? null
}
