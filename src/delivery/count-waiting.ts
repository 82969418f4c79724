import type { WaitingSends } from './delivery.ts'
import { readUrgency, type Pending } from './lane.ts'

/** Messages on their way, counted by network and urgency, the longest waiting first. */
export function countWaiting(pendings: readonly Pending[]): readonly WaitingSends[] {
  const groups = new Map<string, WaitingSends>()
  for (const { effect, takenAt } of pendings) {
    const [channel, urgency] = [effect.to.channel, readUrgency(effect)]
    const key = `${channel}\n${urgency}`
    const known = groups.get(key) ?? { channel, urgency, count: 0, since: takenAt }
    groups.set(key, { channel, urgency, count: known.count + 1, since: Math.min(known.since, takenAt) })
  }
  return [...groups.values()].toSorted((a, b) => a.since - b.since)
}
