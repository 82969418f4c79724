// Decides: to which doses a therapist may set a client by hand.
// Source: our choice: any lower dose of the chain; upward no further than the entry of the next rung, and only where that
// rung may be entered. The therapist's act is its approval; being shown and time on a loaded rung are not waived by it.
// Reviewed 2026-11.
import { comparePlaces, type Chain, type Place } from '#src/domain/chain.ts'
import type { Reason } from '#src/domain/decision.ts'
import { entryOfRung, locate, placeAt, type PlaceIndex } from './moves.ts'

export interface PlaceOverride {
  readonly chain: Chain
  /** Where the client stands. */
  readonly from: Place
  /** What stands in the way of entering the next rung, as `progress-gates.ts` gives it from the top of the present one. */
  readonly gates: readonly Reason[]
  readonly isLocked: boolean
}

/** The places on offer, in the chain's order; none while locked. A dose is set to be met, so none is *met again*. */
export function placesOnOffer({ chain, from, gates, isLocked }: PlaceOverride): readonly PlaceIndex[] {
  if (isLocked) return []
  const here = locate(chain, from)
  const lower = chain.places.flatMap((place, index) => (index < here && place.standing !== 'again' ? [index] : []))
  const present = placeAt(chain, here)
  const isRepeated = present.standing === 'again'
  // The dose met once and met again is one dose: going back to its first meeting is no lower dose.
  const easier = isRepeated ? lower.filter((index) => index !== here - 1) : lower
  const next = chain.places.find((place) => place.rung > present.rung)
  if (next === undefined || gates.some((gate) => closing.has(gate.rule))) return easier
  return [...easier, entryOfRung(chain, next.rung)]
}

const closing: ReadonlySet<Reason['rule']> = new Set(['rung-not-shown', 'rung-too-soon', 'no-progress-after-lock'])

/** The index of a place on offer; null where it is not, or the chain has changed since it was offered. */
export function placeOnOffer(override: PlaceOverride, wanted: Place): PlaceIndex | null {
  return placesOnOffer(override).find((index) => isSame(placeAt(override.chain, index), wanted)) ?? null
}

function isSame(a: Place, b: Place): boolean {
  return comparePlaces(a, b) === 0 && a.exercise === b.exercise
}
