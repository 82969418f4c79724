// Decides: what happens right after a set.
// Source: pain-monitoring model for the zones; the rest is our choice (design of the rules), for a clinician to review.
// Reviewed 2026-11.
import type { Protocol } from '#src/domain/protocol.ts'
import type { Pain, SetReport } from '#src/domain/set-report.ts'
import { painZone } from './pain-zone.ts'

export interface AfterSet {
  /** How many times the remaining sets of this direction, and of its other side, are eased from the prescribed dose, this session only. */
  readonly eases: number
  readonly isDirectionStopped: boolean
  readonly endsSession: boolean
  readonly needsLongerRest: boolean
  readonly asksSymptom: boolean
}

export interface AfterSetFacts {
  /** The reports so far of this direction and of its other side, the newest last; sets left out do not appear. */
  readonly reports: readonly SetReport[]
  /** Other directions stopped in this session, for whatever reason; two sides count once. */
  readonly othersStopped: number
  readonly usualPain: Pain
  readonly protocol: Protocol
}

/** A session ends when a second direction is stopped. */
const directionsStoppedToEnd = 2
/** Control lost this often in one session stops the direction. */
const lossesToStop = 2

export function afterSet({ reports, othersStopped, usualPain, protocol }: AfterSetFacts): AfterSet {
  const last = reports.at(-1)
  const zones = reports.map((report) => painZone(report.pain, usualPain, protocol))
  const losses = reports.filter((report) => report.control === 'lost').length
  const hasAmber = zones.includes('amber')
  const hasUnfinished = reports.some((report) => !report.finished)
  const isDirectionStopped = zones.includes('red') || losses >= lossesToStop
  const stopped = othersStopped + (isDirectionStopped ? 1 : 0)
  const isLastRed = zones.at(-1) === 'red'
  return {
    eases: Number(hasAmber) + Number(losses > 0) + Number(hasUnfinished),
    isDirectionStopped,
    endsSession: (last !== undefined && last.pain > protocol.pain.endsSessionAbove) || stopped >= directionsStoppedToEnd,
    needsLongerRest: last !== undefined && (!last.finished || last.reserve === 0),
    asksSymptom: isLastRed || (last?.control === 'lost' && losses >= lossesToStop),
  }
}
