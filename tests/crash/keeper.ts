// Keeps the product's process running, and kills it as planned.
import { realWait } from '#src/app.ts'
import { createDice } from '#src/commands/rehearse/dice.ts'
import type { CallMoment } from '#tests/support/bot-api/bot-api-double.ts'
import type { Environment } from '#tests/support/prepared-clinic.ts'
import { startProcess, type StartedProcess } from '#tests/support/started-process.ts'
import { killKinds, kills, mixKills, needsReady, type KillKind, type Victim } from './kill-kinds.ts'
import { findProcessFaults } from './process-faults.ts'
import type { TestStore } from './test-store.ts'

const claimLine = /therapist: ([0-9A-F]{10})/
/** Until the first start has shown how long one takes. */
const usualStartMs = 3_000
/** As the README has it: the start was refused, with a line that says why. */
const foundNoDatabase = 2
/** More than this says nothing new. */
export const mostFaults = 50

export interface Keeper {
  /** It has said that it listens, and has not ended. */
  readonly isListening: boolean
  readonly killsLeft: number
  readonly killsByKind: ReadonlyMap<KillKind, number>
  /** The code with which the first therapist comes in. */
  claim(): Promise<string>
  /** From now on the process is killed; the one that runs goes at once. */
  beginKilling(): void
  /** `isFar`: to another stretch of time, at which it may be killed. */
  moveClock(offsetMs: number, isFar: boolean): Promise<void>
  /** For whoever watches the line. */
  note(moment: CallMoment): void
  end(): Promise<void>
}

export interface KeeperParts {
  readonly environment: Environment
  readonly store: TestStore
  readonly seed: number
  readonly kills: number
  readonly offsetMs: number
  readonly faults: string[]
  readonly loseNextPoll: () => void
  readonly killed: () => void
}

const ofOneStore: ReadonlySet<KillKind> = new Set(['disk full', 'database restarted'])

export function createKeeper({ environment, store, seed, kills: count, offsetMs, faults, loseNextPoll, killed }: KeeperParts): Keeper {
  const dice = createDice(seed)
  const kinds = [...killKinds.filter((kind) => !ofOneStore.has(kind)), ...store.killKinds]
  const planned = [...mixKills(count, kinds, dice)]
  const killsByKind = new Map<KillKind, number>()
  const observers = new Set<(moment: CallMoment) => void>()
  const onMove = new Set<() => void>()
  const state = { isOver: false, isListening: false, isKilling: false, offsetMs, startMs: usualStartMs }
  let process = begin()
  const running = keepRunning()

  function begin(): StartedProcess {
    return startProcess(['start'], environment, state.offsetMs)
  }

  const moment: Victim['moment'] = (times, isMeant, then) =>
    new Promise((resolve) => {
      let left = times
      const observer = (one: CallMoment): void => {
        if (!isMeant(one)) return
        left -= 1
        if (left > 0) return
        observers.delete(observer)
        then()
        resolve()
      }
      observers.add(observer)
    })

  async function keepRunning(): Promise<void> {
    for (;;) {
      const kind = state.isKilling ? (planned[0] ?? null) : null
      await liveOnce(process, kind)
      faults.push(...findProcessFaults(process.err))
      if (state.isOver || faults.length > mostFaults) return
      process = begin()
    }
  }

  /** From a start to the end, which is meant or a fault. */
  async function liveOnce(own: StartedProcess, kind: KillKind | null): Promise<void> {
    const startedAt = performance.now()
    const isReady = own.printed('listening to Telegram').then((is) => {
      if (is) state.startMs = performance.now() - startedAt
      state.isListening = is
      return is
    })
    if (kind !== null) void carryOut(kind, own, isReady).catch((error: unknown) => void faults.push(`a kill of the script's failed (${kind}): ${String(error)}`))
    const isKillingBefore = state.isKilling
    const { status, signal } = await own.ended
    state.isListening = false
    observers.clear()
    onMove.clear()
    if (state.isOver) return
    // Another clinic has taken the database away: whoever looks after the process starts it again.
    if (status === foundNoDatabase && store.wasAwaySince(startedAt)) return
    if (kind === null) {
      // The one that took the people in is killed when the killing begins.
      if (isKillingBefore || !state.isKilling) blame(own, 'without a kill', status ?? signal)
      return
    }
    if (signal !== 'SIGKILL' && !(kind === 'told to end' && status === 0)) return blame(own, kind, status ?? signal)
    planned.shift()
    killsByKind.set(kind, (killsByKind.get(kind) ?? 0) + 1)
    killed()
  }

  async function carryOut(kind: KillKind, own: StartedProcess, isReady: Promise<boolean>): Promise<void> {
    if (needsReady(kind) && !(await isReady)) return
    const clockMoved = (): Promise<void> => new Promise((resolve) => onMove.add(resolve))
    await kills[kind]({ process: own, dice, moment, pause: realWait, clockMoved, loseNextPoll, restartDatabase: store.restartDatabase, startMs: state.startMs })
  }

  function blame(own: StartedProcess, during: string, how: number | string | null): void {
    faults.push(`the process ended by itself (${during}): ${how} ${own.err.slice(-400)}`)
  }

  return {
    get isListening() {
      return state.isListening
    },
    get killsLeft() {
      return planned.length
    },
    killsByKind,
    async claim() {
      await process.printed(claimLine)
      return claimLine.exec(process.out)?.[1] ?? ''
    },
    beginKilling() {
      state.isKilling = true
      process.kill('SIGKILL')
    },
    async moveClock(to, isFar) {
      state.offsetMs = to
      const order = process.order({ kind: 'clock', offsetMs: to })
      for (const resolve of isFar ? onMove : []) resolve()
      if (isFar) onMove.clear()
      await order
    },
    note(one) {
      for (const observer of [...observers]) observer(one)
    },
    async end() {
      state.isOver = true
      process.kill('SIGTERM')
      await running
    },
  }
}
