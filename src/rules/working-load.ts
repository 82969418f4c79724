// Decides: what share of the maximum a ladder is worked at, and which external load that leaves once the head is counted.
// Source: shares from the protocol (warm-up 20 %, start 20 %, automatic ceiling 45 %, hard bound 75 %: common practice, no source). The target
// is what its share leaves after the head's own moment: (share × maximum − head) / lever arm. The pull is taken as square to
// the neck all the way, which overrates the load and so errs to the light side. Reviewed 2026-11.
import type { Assumptions } from '#src/domain/assumptions.ts'
import type { LadderId } from '#src/domain/direction.ts'
import type { Load } from '#src/domain/dose.ts'
import type { Exercise, Posture } from '#src/domain/exercise.ts'
import type { Protocol } from '#src/domain/protocol.ts'
import { standardGravity, weightOf } from '#src/domain/units.ts'
import { forceFor, headMoment, momentOf } from './gravity-moment.ts'
import type { Strength } from './usable-maximum.ts'

export type Tool = Extract<Exercise['work'], { kind: 'repetitions' }>['load']

export type Purpose = 'warmUp' | 'start' | 'target'

/** No therapist's act goes beyond this share of the maximum; the bounds of every protocol keep to it as well. */
export const hardShare = 0.75

/** Fractions of the maximum. None passes the automatic ceiling; the ramp from start to target is the chain's places. */
export function workingShares(ladder: LadderId, protocol: Protocol): Readonly<Record<Purpose, number>> {
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

/** Head and load together: what the neck has to hold. */
export function neckMoment(load: Load, posture: Posture | null, assumptions: Assumptions): number {
  const byLoad = (loadMoment[load.kind] as (load: Load, assumptions: Assumptions) => number)(load, assumptions)
  return headMoment(posture, assumptions) + byLoad
}

const externalOf: Record<Tool, (momentNm: number, assumptions: Assumptions) => number> = {
  band: (momentNm, { bandLeverCm }) => forceFor(momentNm, bandLeverCm),
  harness: (momentNm, { harnessLeverCm }) => forceFor(momentNm, harnessLeverCm) / standardGravity,
}

/** Newtons of a band, or kilograms hung, that turn the neck with a moment. */
export function externalForMoment(tool: Tool, momentNm: number, assumptions: Assumptions): number {
  return externalOf[tool](momentNm, assumptions)
}

export interface LoadQuestion {
  readonly ladder: LadderId
  readonly tool: Tool
  readonly posture: Posture | null
  readonly protocol: Protocol
  readonly maximum: Strength
  readonly assumptions: Assumptions
}

/**
 * Newtons of a band or kilograms hung, 0 or less where the head alone is the target already. The target is a limit, so the
 * head counts in it; warm-up and start are shares of the measured force, as a band's entry is, and never above the target.
 */
export function workingLoads({ ladder, tool, posture, protocol, maximum, assumptions }: LoadQuestion): Readonly<Record<Purpose, number>> {
  const shares = workingShares(ladder, protocol)
  const external = (momentNm: number): number => externalForMoment(tool, momentNm, assumptions)
  const target = external(shares.target * maximum.momentNm - headMoment(posture, assumptions))
  return {
    warmUp: Math.min(external(shares.warmUp * maximum.momentNm), target),
    start: Math.min(external(shares.start * maximum.momentNm), target),
    target,
  }
}
