// Decides: how hard the head's own weight pulls at the neck in a posture.
// Source: statics, M = m g L sin(tilt); the head's mass and lever arm are assumptions (content/assumptions.yaml). The middle
// of the head lies a little in front of the neck, so that the true moment upright is small but not nothing: left out, since
// loaded work is reckoned at its hardest tilt. Reviewed 2026-11.
import type { Assumptions } from '#src/domain/assumptions.ts'
import type { Posture } from '#src/domain/exercise.ts'
import { weightOf } from '#src/domain/units.ts'

const degreesPerRadian = 180 / Math.PI
const centimetresPerMetre = 100

/** In newton metres; the tilt is counted from upright. */
export function gravityMoment(kilograms: number, leverCm: number, tiltDegrees: number): number {
  return momentOf(weightOf(kilograms), leverCm) * Math.sin(tiltDegrees / degreesPerRadian)
}

/** Of a force square to its lever arm, in newton metres. */
export function momentOf(newtons: number, leverCm: number): number {
  return (newtons * leverCm) / centimetresPerMetre
}

/** The force that makes a moment at a lever arm to which it is square, in newtons. */
export function forceFor(momentNm: number, leverCm: number): number {
  return (momentNm * centimetresPerMetre) / leverCm
}

/** Nothing where the head's weight is carried, or does not turn the neck. */
export function headMoment(posture: Posture | null, { bodyKg, headShare, headLeverCm }: Assumptions): number {
  return posture === null ? 0 : gravityMoment(bodyKg * headShare, headLeverCm, posture.headTiltDegrees)
}
