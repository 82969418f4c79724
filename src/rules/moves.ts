// Decides: where each decision leads in a chain. Every move is a non-decreasing function of the place.
// Source: our choice (progress by small places; ease by at least a tenth; step back to the entry of the rung below), for
// a clinician to review. Reviewed 2026-11.
import { comparePlaces, type Chain, type ChainPlace, type Place } from '#src/domain/chain.ts'
import { loadMagnitude, type Dose } from '#src/domain/dose.ts'
import type { Protocol } from '#src/domain/protocol.ts'
import { epsilon } from '#src/domain/units.ts'

/** A place by its index in the chain's `places`. */
export type PlaceIndex = number

/** The place at an index that is known to lie inside the chain. */
export function placeAt(chain: Chain, index: PlaceIndex): ChainPlace {
  const place = chain.places[index]
  if (place === undefined) throw new RangeError(`no place ${index} in a chain of ${chain.places.length}`)
  return place
}

/**
 * Where a stored place stands in a chain that may have been built anew since: itself, or the highest that is not harder;
 * the lowest of all where every one is harder.
 */
export function locate(chain: Chain, place: Place): PlaceIndex {
  let found = 0
  chain.places.forEach((candidate, index) => {
    if (comparePlaces(candidate, place) <= 0) found = index
  })
  return found
}

export function lowestOfRung(chain: Chain, index: PlaceIndex): PlaceIndex {
  const { rung } = placeAt(chain, index)
  return chain.places.findIndex((place) => place.rung === rung)
}

export function entryOfRung(chain: Chain, rung: number): PlaceIndex {
  return chain.places.findIndex((place) => place.rung === rung && place.isEntry)
}

/** Where a plan starts: the entry of its rung, or of the nearest below it that does not take a therapist to choose. */
export function startOn(chain: Chain, rung: number): PlaceIndex {
  const isOpen = (place: ChainPlace): boolean => place.rung === rung || (place.rung < rung && !place.isTherapistOnly)
  return Math.max(0, chain.places.findLastIndex((place) => place.isEntry && isOpen(place)))
}

/**
 * One place up; the highest stays. A new rung is entered at its entry dose: the doses below it are for easing.
 *
 * So the last place of a rung leads further than the first places of the next one do. That no worse answer ever leads to
 * more all the same needs the order of places and that of the way still to go: no move turns either round
 * (tests/rules/moves.test.ts checks every pair of places).
 */
export function progressFrom(chain: Chain, index: PlaceIndex): PlaceIndex {
  const next = chain.places[index + 1]
  if (next === undefined) return index
  return next.rung === placeAt(chain, index).rung ? index + 1 : entryOfRung(chain, next.rung)
}

/** Stays, but a dose met once has to be met once more. */
export function maintainAt(chain: Chain, index: PlaceIndex): PlaceIndex {
  return placeAt(chain, index).standing === 'again' ? index - 1 : index
}

/**
 * The nearest dose on the rung that is at least a tenth lower: in load, or at the same load in hold or repetitions.
 *
 * Taken place by place, "nearest" would not be monotone: with load steps under 10 % the first dose after a step has to go
 * two loads down, while the last dose before it would go down by repetitions only, and so end higher. So the rung is
 * read from the top and no place may ease to more than the next harder one does; that is the highest monotone choice.
 */
export function easeFrom(chain: Chain, index: PlaceIndex, protocol: Protocol): PlaceIndex {
  return easeTable(chain, protocol)[index] ?? index
}

const tables = new WeakMap<Chain, { readonly atLeast: number; readonly table: readonly PlaceIndex[] }>()

function easeTable(chain: Chain, protocol: Protocol): readonly PlaceIndex[] {
  const known = tables.get(chain)
  if (known?.atLeast === protocol.ease.atLeast) return known.table
  const table: PlaceIndex[] = []
  for (let index = chain.places.length - 1; index >= 0; index -= 1) {
    const highest = Math.min(index - 1, table[index + 1] ?? index)
    table[index] = nearestLower(chain, index, highest, protocol.ease.atLeast)
  }
  tables.set(chain, { atLeast: protocol.ease.atLeast, table })
  return table
}

function nearestLower(chain: Chain, index: PlaceIndex, highest: PlaceIndex, atLeast: number): PlaceIndex {
  const from = placeAt(chain, index)
  const lowest = lowestOfRung(chain, index)
  for (let candidate = highest; candidate > lowest; candidate -= 1) {
    const place = placeAt(chain, candidate)
    if (place.standing !== 'again' && isLowerBy(place.dose, from.dose, atLeast)) return candidate
  }
  return lowest
}

/** Of two doses of a rung in the order of doses, so that at the same load the lower one is not held longer. */
function isLowerBy(lower: Dose, than: Dose, atLeast: number): boolean {
  const keeps = 1 - atLeast + epsilon
  const load = loadMagnitude(lower.load)
  if (load !== loadMagnitude(than.load)) return load <= loadMagnitude(than.load) * keeps
  const [hold, holdThan] = [lower.holdSeconds ?? 0, than.holdSeconds ?? 0]
  // A dynamic dose has no hold: nothing is no tenth lower than nothing.
  const isHoldLower = holdThan > 0 && hold <= holdThan * keeps && lower.reps <= than.reps
  return isHoldLower || lower.reps <= than.reps * keeps
}

export interface StepBack {
  readonly place: PlaceIndex
  /** No rung below is open without the therapist, who is asked. */
  readonly asks: boolean
}

/** The entry of the rung below, or the lowest dose of the present one where the rung below is the therapist's to open. */
export function stepBackFrom(chain: Chain, index: PlaceIndex, isRungOpen: (rung: number) => boolean): StepBack {
  const lowest = lowestOfRung(chain, index)
  const below = chain.places[lowest - 1]
  if (below === undefined || below.isTherapistOnly || !isRungOpen(below.rung)) return { place: lowest, asks: true }
  return { place: entryOfRung(chain, below.rung), asks: false }
}

/** Where training starts again once a lock is cleared: one ease down; after an emergency not above the rung's entry. */
export function restartFrom(chain: Chain, index: PlaceIndex, level: 'urgent' | 'emergency', protocol: Protocol): PlaceIndex {
  const eased = easeFrom(chain, index, protocol)
  return level === 'urgent' ? eased : Math.min(eased, entryOfRung(chain, placeAt(chain, index).rung))
}
