// Decides: what a therapist is told about bands that cannot do what the band rung asks of them.
// Source: our choice: a band is never used outside the two stretches at which it was measured, and where that is not enough
// the plan says so instead. Reviewed 2026-11.
import { bandLoads } from './available-loads.ts'
import { entryLimit, loadedClimb, type LoadedRung } from './loaded-climb.ts'

export type BandFit =
  | { readonly kind: 'serves' }
  /** No whole centimetre lies between the two measured stretches. */
  | { readonly kind: 'no-stretch' }
  /** Even the least force, with the head, is above the target: the rung and all above it are closed. */
  | { readonly kind: 'too-strong'; readonly leastN: number }
  /** The least force is above the entry limit: entering asks for approval. */
  | { readonly kind: 'starts-high'; readonly leastN: number; readonly limitN: number }
  /** The rung is never left: too few steps, or not enough force, within what was measured and allowed. */
  | { readonly kind: 'ends-low'; readonly mostN: number; readonly neededN: number | null }

export function bandFit(rung: LoadedRung): BandFit {
  const { maximum, protocol } = rung
  const leastN = bandLoads(rung.equipment.bands)[0]?.newtons
  if (leastN === undefined) return { kind: 'no-stretch' }
  const climb = loadedClimb.band(rung)
  const last = climb.steps.at(-1)?.load
  if (last?.kind !== 'force') return { kind: 'too-strong', leastN }
  if (!climb.canBeLeft) {
    return { kind: 'ends-low', mostN: last.newtons, neededN: maximum && maximum.forceN * protocol.maximum.bandLeave }
  }
  if (maximum && climb.isEntryTooHigh) return { kind: 'starts-high', leastN, limitN: entryLimit(rung) }
  return { kind: 'serves' }
}
