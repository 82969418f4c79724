// Decides: which thresholds make sense together.
// Source: our choice; a list of repetitions must rise, or the chain would have no order. Reviewed 2026-11.
import { directionsOf, ladderIds, type LadderId } from '#src/domain/direction.ts'
import { thresholdAt, type ThresholdPath, type Thresholds } from '#src/domain/protocol.ts'

/** Two thresholds that contradict each other; either may be the one to mend. */
export interface OrderFault {
  readonly lower: ThresholdPath
  readonly higher: ThresholdPath
  /** What is wrong with the higher one, and with the lower. */
  readonly message: string
  readonly lowerMessage: string
}

type Order = readonly [lower: ThresholdPath, higher: ThresholdPath]

const below: readonly Order[] = [
  ['pain.comfortableUpTo', 'pain.amberUpTo'],
  ['pain.amberUpTo', 'pain.endsSessionAbove'],
  ['pain.amberUpTo', 'pain.urgentFrom'],
  ['loadStep.largest', 'loadStep.farAbove'],
  ['loadStep.farAbove', 'loadStep.approvalAbove'],
  ['loadStep.beyondPlaces', 'loadStep.farBeyondPlaces'],
  ['maximum.bandEntry', 'maximum.bandLeave'],
  ['maximum.bandLeave', 'maximum.ceiling'],
  ['absence.withdrawAfterDays', 'absence.easeAfterDays'],
  ['absence.easeAfterDays', 'absence.reenterAfterDays'],
  ['supervision.noProgressAfterDays', 'supervision.noSessionAfterDays'],
  ['silence.askAfterMinutes', 'silence.pauseAfterMinutes'],
  ...ladderIds.map((ladder): Order => [`working.${ladder}.warmUp`, `working.${ladder}.target`]),
]

const notAbove: readonly Order[] = [
  ['harness.entryUpToKg', 'harness.ceilingKg'],
  ...ladderIds.flatMap((ladder): Order[] => [
    ['maximum.start', `working.${ladder}.target`],
    [`working.${ladder}.target`, 'maximum.ceiling'],
  ]),
]

export function orderFaults(thresholds: Thresholds): readonly OrderFault[] {
  const numberAt = (path: ThresholdPath): number => Number(thresholdAt(thresholds, path))
  const faultsOf = (orders: readonly Order[], isRight: (lower: number, higher: number) => boolean, words: readonly [string, string]): OrderFault[] =>
    orders.flatMap(([lower, higher]) => {
      const [least, most] = [numberAt(lower), numberAt(higher)]
      if (isRight(least, most)) return []
      return [{ lower, higher, message: `must be ${words[0]} ${least}, the threshold before it`, lowerMessage: `must be ${words[1]} ${most}, the threshold after it` }]
    })
  return [
    ...faultsOf(below, (lower, higher) => lower < higher, ['above', 'below']),
    ...faultsOf(notAbove, (lower, higher) => lower <= higher, ['at least', 'at most']),
    ...repetitionFaults(thresholds),
    ...ladderIds.flatMap((ladder) => sessionFaults(thresholds, ladder)),
  ]
}

function repetitionFaults({ repetitions: { below: low, range, beyond }, loadStep }: Thresholds): OrderFault[] {
  const lists = [['repetitions.below', low], ['repetitions.range', range], ['repetitions.beyond', beyond]] as const
  const faults = lists.flatMap(([path, list], index): OrderFault[] => {
    const before = lists[index - 1]
    if (isRising(list) && isRising([...(before?.[1].slice(-1) ?? []), ...list.slice(0, 1)])) return []
    const message = `must rise${before === undefined ? '' : `, from above ${before[1].at(-1)}`}`
    return [{ lower: before?.[0] ?? path, higher: path, message, lowerMessage: 'must rise and end below the list after it' }]
  })
  const asked = loadStep.farBeyondPlaces
  if (beyond.length >= asked) return faults
  const path = 'repetitions.beyond' as const
  const message = `must have ${asked} entries, as many as are asked for before a large load step`
  return [...faults, { lower: 'loadStep.farBeyondPlaces', higher: path, message, lowerMessage: `must be at most ${beyond.length}, the repetitions listed beyond the range` }]
}

function isRising(list: readonly number[]): boolean {
  return list.every((count, index) => index === 0 || count > (list[index - 1] ?? 0))
}

/** A ladder that does not fit into a session on its own would never be trained. */
function sessionFaults({ sets, session }: Thresholds, ladder: LadderId): OrderFault[] {
  const needed = sets[ladder] * directionsOf(ladder).length
  if (needed <= session.mostSets) return []
  const message = `must be at least ${needed}, the sets of ${ladder}`
  return [{ lower: `sets.${ladder}`, higher: 'session.mostSets', message, lowerMessage: `makes ${needed} sets, and a session has at most ${session.mostSets}` }]
}

/** The path as it stands in a file. */
export function keysOf(path: ThresholdPath): readonly string[] {
  return path.split('.').map((key) => key.replace(/[A-Z]/g, (letter) => `_${letter.toLowerCase()}`))
}
