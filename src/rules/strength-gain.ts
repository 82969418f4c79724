// Decides: how much stronger a retest shows a client, and whether that is more than the error of measuring.
// Source: Salo 2006, JOSPT 36:495-502: standard deviations and a reliability of 0.87 to 0.96 in 220 healthy women of 20 to 59.
// The lower reliability is taken, so that a gain is not called real too early: our choice. For side bending and the deep
// flexors no figure was found, and none is made up. Reviewed 2026-11.
import type { LadderId } from '#src/domain/direction.ts'
import { detectableChange, reliableChange, standardErrorOf } from './reliable-change.ts'
import type { Strength } from './usable-maximum.ts'

interface KnownSpread {
  readonly quantity: keyof Strength
  readonly standardDeviation: number
}

const spreadOf: Record<LadderId, KnownSpread | null> = {
  extension: { quantity: 'forceN', standardDeviation: 31.3 },
  flexion: { quantity: 'forceN', standardDeviation: 20.0 },
  rotation: { quantity: 'momentNm', standardDeviation: 2.3 },
  'lateral-flexion': null,
  'deep-flexors': null,
}
const reliability = 0.87

export interface StrengthGain {
  readonly quantity: KnownSpread['quantity']
  readonly before: number
  readonly after: number
  readonly percent: number
  /** In the unit of the quantity; null where no error is published for this direction. */
  readonly error: { readonly standardError: number; readonly detectable95: number; readonly isWithin: boolean } | null
}

export function strengthGain(ladder: LadderId, before: Strength, after: Strength): StrengthGain {
  const spread = spreadOf[ladder]
  const quantity = spread?.quantity ?? 'forceN'
  const change = after[quantity] - before[quantity]
  return {
    quantity,
    before: before[quantity],
    after: after[quantity],
    percent: (100 * change) / before[quantity],
    error: spread && errorOf(spread.standardDeviation, change),
  }
}

function errorOf(standardDeviation: number, change: number): NonNullable<StrengthGain['error']> {
  const standardError = standardErrorOf(standardDeviation, reliability)
  return {
    standardError,
    detectable95: detectableChange(standardError, 95),
    isWithin: !reliableChange(change, standardError).isReliable,
  }
}
