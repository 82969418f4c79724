// Decides: what share of the maximum a ladder is worked at, and which external load that leaves once the head is counted.
// Source: shares from the protocol (warm-up 20 %, start 20 %, automatic ceiling 45 %: common practice, no source). The load
// is what the share leaves after the head's own moment: (share × maximum − head) / lever arm. The pull is taken as square to
// the neck all the way, which overrates the load and so errs to the light side. Reviewed 2026-11.
import type { Assumptions } from '#src/domain/assumptions.ts'
import type { LadderId } from '#src/domain/direction.ts'
import type { Load } from '#src/domain/dose.ts'
import type { Exercise, Posture } from '#src/domain/exercise.ts'
import type { Protocol } from '#src/domain/protocol.ts'
import { standardGravity, weightOf } from '#src/domain/units.ts'
import { forceFor, headMoment, momentOf } from './gravity-moment.ts'
import type { Maximum } from './usable-maximum.ts'

export type Tool = Extract<Exercise['work'], { kind: 'repetitions' }>['load']

/** Fractions of the maximum, head and load together. */
export interface WorkingShares {
  readonly warmUp: number
  readonly start: number
  readonly target: number
}

/** No share passes the automatic ceiling; the ramp from start to target is the chain's places. */
export function workingShares(ladder: LadderId, protocol: Protocol): WorkingShares {
  const { warmUp, target: wanted } = protocol.working[ladder]
  const target = Math.min(wanted, protocol.maximum.ceiling)
  return { warmUp: Math.min(warmUp, target), start: Math.min(protocol.maximum.start, target), target }
}

/** What the load alone turns the neck with, in newton metres. */
const loadMoment: { [Kind in Load['kind']]: (load: Extract<Load, { kind: Kind }>, assumptions: Assumptions) => number } = {
  none: () => 0,
  // The client's own hand: an effort, not a force that anybody has measured.
  push: () => 0,
  mass: (load, { harnessLeverCm }) => momentOf(weightOf(load.kilograms), harnessLeverCm),
  force: (load, { bandLeverCm }) => momentOf(load.newtons, bandLeverCm),
}

/** Load without head: what is compared with the start share, as a band's force is with its entry share. */
export function externalMoment(load: Load, assumptions: Assumptions): number {
  return (loadMoment[load.kind] as (load: Load, assumptions: Assumptions) => number)(load, assumptions)
}

/** Head and load together: what the neck has to hold. */
export function neckMoment(load: Load, posture: Posture | null, assumptions: Assumptions): number {
  return headMoment(posture, assumptions) + externalMoment(load, assumptions)
}

const externalOf: Record<Tool, (momentNm: number, assumptions: Assumptions) => number> = {
  band: (momentNm, { bandLeverCm }) => forceFor(momentNm, bandLeverCm),
  harness: (momentNm, { harnessLeverCm }) => forceFor(momentNm, harnessLeverCm) / standardGravity,
}

export interface LoadQuestion {
  readonly tool: Tool
  readonly posture: Posture | null
  readonly maximum: Maximum
  readonly assumptions: Assumptions
}

/** Newtons of a band or kilograms hung; 0 or less where the head alone is that share already. */
export function externalLoad(share: number, { tool, posture, maximum, assumptions }: LoadQuestion): number {
  return externalOf[tool](share * maximum.momentNm - headMoment(posture, assumptions), assumptions)
}
