// Decides: from which load to which a client climbs on a band and on a harness.
// Source: ladder defaults (our choice, for a clinician to review): a band is entered at most at 15 % of the measured maximum
// and left from 20 % on, as forces; the harness begins empty, at most at 1.0 kg, and is left at the target, 45 % of the
// maximum, or at the weight the therapist states. Target and ceiling count the head's own weight. Reviewed 2026-11.
import type { Assumptions } from '#src/domain/assumptions.ts'
import type { LadderId } from '#src/domain/direction.ts'
import type { Load } from '#src/domain/dose.ts'
import type { Posture } from '#src/domain/exercise.ts'
import type { Equipment } from '#src/domain/plan.ts'
import type { Protocol } from '#src/domain/protocol.ts'
import { epsilon } from '#src/domain/units.ts'
import { bandLoads, harnessLoads, type MassLoad } from './available-loads.ts'
import { climbLoads, type LoadStep } from './climb-loads.ts'
import type { Maximum, Strength } from './usable-maximum.ts'
import { neckMoment, workingLoads, workingShares, type Tool } from './working-load.ts'

export interface LoadedRung {
  readonly ladder: LadderId
  readonly posture: Posture | null
  readonly equipment: Equipment
  readonly protocol: Protocol
  /** Null where none was measured. */
  readonly maximum: Maximum | null
  readonly assumptions: Assumptions
  /** Where the therapist has the harness left, all added weight counted. */
  readonly targetKg: number | null
  /** What the neck held at the last dose of a loaded rung below, in newton metres. */
  readonly reachedNm: number | null
}

export interface LoadedClimb {
  /** None where there is no load that this client may start from. */
  readonly steps: readonly LoadStep<Load>[]
  readonly isEntryTooHigh: boolean
  /**
   * Whether its criterion to leave can be met: no value to reach, no request. Judged by the lowest maximum ever measured: a
   * better retest must not close a rung above because what the client owns is now too little for the rung below it.
   */
  readonly canBeLeft: boolean
}

export const loadedClimb: Record<Tool, (rung: LoadedRung) => LoadedClimb> = { band: bandClimb, harness: harnessClimb }

/** Equipment that gives no load to start from: the rung is passed over. */
const passedOver: LoadedClimb = { steps: [], isEntryTooHigh: false, canBeLeft: true }
/** Head and least load are too much for this neck: what comes above is harder still, so nothing above is offered. */
const tooWeak: LoadedClimb = { steps: [], isEntryTooHigh: false, canBeLeft: false }

/** From the entry force to the first that is enough to leave; without a measured maximum, two force steps above entry. */
function bandClimb(rung: LoadedRung): LoadedClimb {
  const { protocol, maximum } = rung
  const loads = bandLoads(rung.equipment.bands)
  const limit = entryLimit(rung)
  const allowed = loads.filter((load) => load.newtons <= limit + epsilon)
  const entry = allowed.at(-1) ?? loads[0]
  if (entry === undefined) return passedOver
  const ceiling = limitsOf('band', rung, maximum).target
  if (entry.newtons > ceiling + epsilon) return tooWeak
  const climb = climbLoads(entry, loads, protocol, ceiling)
  const enoughOf = (strength: Strength | null): number =>
    climb.findIndex(
      ({ load }, index) =>
        index >= protocol.band.stepsAboveEntry && (strength === null || load.newtons >= strength.forceN * protocol.maximum.bandLeave - epsilon),
    )
  const enough = enoughOf(maximum)
  return {
    steps: enough < 0 ? climb : climb.slice(0, enough + 1),
    isEntryTooHigh: maximum !== null && allowed.length === 0,
    canBeLeft: enoughOf(maximum && maximum.lowest) >= 0,
  }
}

/** From the empty harness to the target; never begun above the entry limit. */
function harnessClimb(rung: LoadedRung): LoadedClimb {
  const { protocol, assumptions, posture, targetKg, reachedNm } = rung
  const loads = harnessLoads(rung.equipment)
  const entry = loads[0]
  if (entry === undefined || entry.kilograms > protocol.harness.entryUpToKg) return passedOver
  const { start, target: byMaximum } = limitsOf('harness', rung, rung.maximum)
  // No retest moves this limit, so the steps may be chosen to end at it to the gram.
  const within = loads.filter((load) => load.kilograms <= (targetKg ?? protocol.harness.ceilingKg))
  if (within.length === 0 || entry.kilograms > byMaximum + epsilon) return tooWeak
  const steps = climbLoads(entry, within, protocol, byMaximum)
  // Like with like: a harness hangs from a neck tilted further than a band is pulled in, so the head counts on both sides.
  const isAboveBand = reachedNm !== null && neckMoment(entry, posture, assumptions) > reachedNm + epsilon
  return { steps, isEntryTooHigh: isAboveBand || entry.kilograms > start + epsilon, canBeLeft: isTargetReached(steps.at(-1)?.load ?? entry, rung) }
}

/** Without a measured maximum none is low enough to begin with, but the least that the bands give. */
export function entryLimit(rung: LoadedRung): number {
  const { maximum, protocol } = rung
  if (maximum === null) return 0
  return Math.min(maximum.lowest.forceN * protocol.maximum.bandEntry, limitsOf('band', rung, maximum.lowest).target)
}

/** Any load where no maximum was measured. */
function limitsOf(tool: Tool, rung: LoadedRung, maximum: Strength | null): Readonly<Record<'start' | 'target', number>> {
  return maximum === null ? { start: Infinity, target: Infinity } : workingLoads({ ...rung, tool, maximum })
}

/** Within one usual load step of where the rung is left: what the client owns rarely hangs to the gram. */
function isTargetReached(last: MassLoad, rung: LoadedRung): boolean {
  const { ladder, maximum, targetKg, posture, assumptions, protocol } = rung
  const nearly = 1 - protocol.loadStep.largest
  const byMaximum = limitsOf('harness', rung, maximum && maximum.lowest).target
  if (targetKg !== null && targetKg <= byMaximum) return last.kilograms >= targetKg * nearly - epsilon
  if (maximum === null) return false
  return neckMoment(last, posture, assumptions) >= workingShares(ladder, protocol).target * maximum.lowest.momentNm * nearly - epsilon
}
