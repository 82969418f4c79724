import type { Log } from '#src/ports/log.ts'
import { readClock, type ClockControl, type ClockView } from './clock-control.ts'
import type { RefusalCode, ServerFrame } from './frame.ts'
import { addStrangers, type People } from './people.ts'
import { createSingleFlight } from './single-flight.ts'

/** What every page shows beside the chats: who there is, and the clinic's clock. */
export interface ClinicView {
  people(): People
  clock(): ClockView | null
  /** Asks the clinic again; what changed is told to every page. */
  refresh(): void
  settled(): Promise<void>
  /** Moves the clock; resolves with null once it stands there and the pages were told, else with why not. */
  move(choice: string): Promise<RefusalCode | null>
  /** The clock as text, for a new line of a chat. */
  stamp(): Promise<string | null>
}

interface ClinicViewOptions {
  readonly panes: () => Promise<People>
  readonly clockControl: ClockControl | null
  /** Who has a chat. */
  readonly addresses: () => readonly string[]
  readonly changed: (frame: ServerFrame) => void
  readonly log: Log
}

export function createClinicView({ panes, clockControl, addresses, changed, log }: ClinicViewOptions): ClinicView {
  let people: People = { clients: [], therapists: [] }
  let clock: ClockView | null = null
  let isMoving = false

  /** The page goes on with what it last knew. */
  async function attempt(event: string, act: () => Promise<void>): Promise<boolean> {
    try {
      await act()
      return true
    } catch (error) {
      log.warn(event, { error: error instanceof Error ? error.name : typeof error })
      return false
    }
  }

  async function readPeople(): Promise<void> {
    const next = addStrangers(await panes(), addresses())
    if (isSame(next, people)) return
    people = next
    changed({ kind: 'people', people })
  }

  async function readTime(): Promise<void> {
    if (clockControl === null) return
    const next = await readClock(clockControl)
    if (isSame(next, clock)) return
    clock = next
    changed({ kind: 'clock', clock })
  }

  const refreshing = createSingleFlight(async () => {
    await attempt('browser-people-unknown', readPeople)
    await attempt('browser-clock-unknown', readTime)
  })

  return {
    people: () => people,
    clock: () => clock,
    refresh: refreshing.ask,
    settled: refreshing.settled,
    async move(choice) {
      if (clockControl === null) return 'unknown'
      if (isMoving) return 'busy'
      isMoving = true
      try {
        let isOffered = false
        const hasMoved = await attempt('browser-clock-not-moved', async () => {
          isOffered = (await clockControl.choices()).some((one) => one.id === choice)
          if (isOffered) await clockControl.move(choice)
        })
        refreshing.ask()
        await refreshing.settled()
        if (!hasMoved) return 'failed'
        return isOffered ? null : 'unknown'
      } finally {
        isMoving = false
      }
    },
    async stamp() {
      let text: string | null = null
      if (clockControl !== null) {
        await attempt('browser-clock-unknown', async () => void ({ text } = await clockControl.now()))
      }
      return text
    },
  }
}

function isSame(a: unknown, b: unknown): boolean {
  return JSON.stringify(a) === JSON.stringify(b)
}
