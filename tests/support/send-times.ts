// What a network sees of a pace: when each call came.
import type { SendingLimits } from '#src/ports/channel.ts'
import type { ManualClock } from './manual-clock.ts'
import { ScriptedChannel, type Sent } from './scripted-channel.ts'

export interface TimedSend extends Sent {
  readonly at: number
}

export interface TimedChannel {
  readonly channel: ScriptedChannel
  readonly sends: readonly TimedSend[]
}

/** Takes everything at once and notes when. */
export function timedChannel(clock: ManualClock, limits: SendingLimits): TimedChannel {
  const channel = new ScriptedChannel('net', limits)
  const sends: TimedSend[] = []
  channel.answer = (sent, number) => {
    sends.push({ ...sent, at: clock.now() })
    return { kind: 'sent', ref: `ref-${number}` }
  }
  return { channel, sends }
}

/** The most that ever fell into a stretch so long; `times` are in order. */
export function mostWithin(times: readonly number[], stretchMs: number): number {
  let most = 0
  for (let first = 0, last = 0; last < times.length; last += 1) {
    while ((times[first] ?? 0) <= (times[last] ?? 0) - stretchMs) first += 1
    most = Math.max(most, last - first + 1)
  }
  return most
}
