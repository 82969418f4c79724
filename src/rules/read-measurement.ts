// Decides: whether a typed maximal force can be what was measured, or is asked again with what seems wrong.
// Source: means of 220 healthy women, Salo 2006, JOSPT 36:495-502: extension, flexion, rotation. Side bending and the deep
// flexors: our choice, no figure found. Ten times the norm is refused; how far off a doubt begins is our choice: very weak
// necks are whom this is for, so that a doubt can always be confirmed. Reviewed 2026-11.
import type { LadderId } from '#src/domain/direction.ts'
import { forceUnits, toNewtons, type ForceUnit } from '#src/domain/units.ts'
import { forceFor } from './gravity-moment.ts'
import { trialSpread, type Difference } from './usable-maximum.ts'

export interface TypedMeasurement {
  readonly ladder: LadderId
  readonly trials: readonly number[]
  readonly unit: ForceUnit
  readonly leverCm: number | null
  /** The therapist has been asked and stays with it. */
  readonly isConfirmed: boolean
}

export const measurementDoubts = ['not-positive', 'unit-seems-wrong', 'far-above', 'far-below', 'trials-apart'] as const
export type MeasurementDoubt = (typeof measurementDoubts)[number]

export type MeasurementReading =
  /** `force` is the best trial, in the unit that was typed. */
  | { readonly kind: 'usable'; readonly force: number; readonly newtons: number; readonly spread: Difference | null }
  | {
      readonly kind: 'ask-again'
      readonly reason: MeasurementDoubt
      /** The trial in question. */
      readonly value: number
      /** A unit with which the same number would be likely. */
      readonly suggestion: { readonly value: number; readonly unit: ForceUnit } | null
      readonly mayBeConfirmed: boolean
    }

/** What is usual, in newtons; for rotation in newton metres, since the head is turned by a short lever. */
const usual: Record<LadderId, { readonly newtons: number } | { readonly newtonMetres: number }> = {
  extension: { newtons: 190.8 },
  flexion: { newtons: 73.8 },
  'lateral-flexion': { newtons: 120 },
  rotation: { newtonMetres: 8 },
  'deep-flexors': { newtons: 60 },
}
/** From the middle of the head to where the hand or pad sits when it is turned; our choice. */
const turningLeverCm = 8

const refusedFrom = 10
const unlikely = { below: 0.2, above: 3 }
const likely = { from: 0.3, to: 3 }
const farBelow = 0.05
const apartAbove = 2

export function readMeasurement(typed: TypedMeasurement): MeasurementReading {
  const { trials, unit, isConfirmed } = typed
  const force = Math.max(...trials)
  const least = Math.min(...trials)
  if (!(least > 0)) return askAgain('not-positive', least, null, false)

  const share = shareOfUsual(force, unit, typed)
  const suggestion = isUnlikely(share) ? likelyUnit(force, typed) : null
  if (share >= refusedFrom) return askAgain(suggestion ? 'unit-seems-wrong' : 'far-above', force, suggestion, false)
  if (!isConfirmed) {
    if (suggestion) return askAgain('unit-seems-wrong', force, suggestion, true)
    if (share < farBelow) return askAgain('far-below', force, null, true)
    if (force > least * apartAbove) return askAgain('trials-apart', least, null, true)
  }
  return { kind: 'usable', force, newtons: toNewtons(force, unit), spread: trialSpread(trials) }
}

function askAgain(
  reason: MeasurementDoubt,
  value: number,
  suggestion: { readonly value: number; readonly unit: ForceUnit } | null,
  mayBeConfirmed: boolean,
): MeasurementReading {
  return { kind: 'ask-again', reason, value, suggestion, mayBeConfirmed }
}

function shareOfUsual(force: number, unit: ForceUnit, { ladder, leverCm }: TypedMeasurement): number {
  const norm = usual[ladder]
  const newtons = 'newtons' in norm ? norm.newtons : forceFor(norm.newtonMetres, leverCm ?? turningLeverCm)
  return toNewtons(force, unit) / newtons
}

function isUnlikely(share: number): boolean {
  return share < unlikely.below || share > unlikely.above
}

/** The unit that brings an unlikely number nearest to what is usual; its own is never among the likely ones. */
function likelyUnit(force: number, typed: TypedMeasurement): { readonly value: number; readonly unit: ForceUnit } | null {
  const distance = (unit: ForceUnit): number => Math.abs(Math.log(shareOfUsual(force, unit, typed)))
  const [nearest] = forceUnits
    .filter((unit) => shareOfUsual(force, unit, typed) >= likely.from && shareOfUsual(force, unit, typed) <= likely.to)
    .sort((a, b) => distance(a) - distance(b))
  return nearest === undefined ? null : { value: force, unit: nearest }
}
