// How the process is ended. Each kind waits for its moment and leaves a dead process behind.
import type { CallMoment } from '#tests/support/bot-api/bot-api-double.ts'
import type { StartedProcess } from '#tests/support/started-process.ts'
import type { Dice } from '#src/commands/rehearse/dice.ts'

export const killKinds = ['any instant', 'update delivered', 'confirmation lost', 'sent, not recorded', 'starting', 'clock moved', 'told to end', 'disk full', 'database restarted'] as const
export type KillKind = (typeof killKinds)[number]

export interface Victim {
  readonly process: StartedProcess
  readonly dice: Dice
  /** Resolves with the n-th moment of that kind from now, in the middle of it; never where the run is over first. */
  moment(count: number, isMeant: (moment: CallMoment) => boolean, then: () => void): Promise<void>
  /** The server never hears the next poll, and so keeps what it was to confirm. */
  loseNextPoll(): void
  /** Resolves when the clock has next been moved. */
  clockMoved(): Promise<void>
  pause(ms: number): Promise<void>
  /** Ends and starts the database's server; null where there is none. */
  readonly restartDatabase: (() => Promise<void>) | null
  /** How long a start takes, in ms. */
  readonly startMs: number
}

type Kill = (victim: Victim) => Promise<void>

const isDelivery = ({ method, phase, updates }: CallMoment): boolean => method === 'getUpdates' && phase === 'answered' && updates > 0
const isPoll = ({ method, phase }: CallMoment): boolean => method === 'getUpdates' && phase === 'arrived'
const isSent = ({ method, phase, status }: CallMoment): boolean => (method === 'sendMessage' || method === 'editMessageText') && phase === 'done' && status === 200

const nothing = (): void => undefined

export const kills: Readonly<Record<KillKind, Kill>> = {
  'any instant': async ({ process, dice, moment, pause }) => {
    await moment(1, isDelivery, nothing)
    await pause(dice.roll(0, 600))
    process.kill('SIGKILL')
  },
  'update delivered': async ({ process, dice, moment, pause }) => {
    await moment(dice.roll(1, 4), isDelivery, nothing)
    await pause(dice.roll(0, 20))
    process.kill('SIGKILL')
  },
  // What was handled meanwhile comes again, and must be known.
  'confirmation lost': async ({ process, dice, moment, loseNextPoll, pause }) => {
    await moment(dice.roll(1, 4), isDelivery, loseNextPoll)
    await moment(1, isPoll, nothing)
    await pause(dice.roll(0, 300))
    process.kill('SIGKILL')
  },
  // Before the answer is even written: the person has the message, and the process will never know.
  'sent, not recorded': ({ process, dice, moment }) => moment(dice.roll(1, 12), isSent, () => process.kill('SIGKILL')),
  starting: async ({ process, dice, pause, startMs }) => {
    await pause(dice.roll(Math.round(startMs * 0.3), Math.round(startMs * 1.1)))
    process.kill('SIGKILL')
  },
  'clock moved': async ({ process, dice, clockMoved, pause }) => {
    await clockMoved()
    await pause(dice.roll(0, 60))
    process.kill('SIGKILL')
  },
  'told to end': async ({ process, dice, moment, pause }) => {
    await moment(dice.roll(1, 10), isSent, () => process.kill('SIGTERM'))
    await pause(dice.roll(0, 60))
    process.kill('SIGKILL')
  },
  // Now and then there is room again, and what had to wait is written before the end.
  'disk full': async ({ process, dice, moment, pause }) => {
    await moment(dice.roll(1, 3), isDelivery, nothing)
    await process.order({ kind: 'disk', isFull: true })
    await pause(dice.roll(50, 700))
    if (dice.chance(50)) {
      await process.order({ kind: 'disk', isFull: false })
      await moment(dice.roll(1, 3), isSent, nothing)
    }
    process.kill('SIGKILL')
  },
  'database restarted': async ({ process, dice, moment, restartDatabase }) => {
    await moment(dice.roll(1, 3), isDelivery, nothing)
    await restartDatabase?.()
    await moment(dice.roll(1, 6), isSent, nothing)
    process.kill('SIGKILL')
  },
}

/** Starting is not waited for. */
export function needsReady(kind: KillKind): boolean {
  return kind !== 'starting'
}

/** The same mixture whatever the number: an even share of each, in an order of the seed's. */
export function mixKills(count: number, kinds: readonly KillKind[], dice: Dice): readonly KillKind[] {
  const mixed = Array.from({ length: count }, (_, index) => kinds[index % kinds.length]!)
  for (let last = mixed.length - 1; last > 0; last -= 1) {
    const other = dice.roll(0, last)
    ;[mixed[last], mixed[other]] = [mixed[other]!, mixed[last]!]
  }
  return mixed
}
