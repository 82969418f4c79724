// Decides: the loaded warm-up before the first working set of a loaded dose.
// Source: warm-up at about 20 % of the maximum: common practice, no source. One set of six, and at most half of today's load:
// our choice. Reviewed 2026-11.
import type { Assumptions } from '#src/domain/assumptions.ts'
import type { LadderId } from '#src/domain/direction.ts'
import type { Dose, Load } from '#src/domain/dose.ts'
import type { Equipment } from '#src/domain/plan.ts'
import type { Protocol } from '#src/domain/protocol.ts'
import { bestLoad } from './available-loads.ts'
import type { Maximum } from './usable-maximum.ts'
import { externalForMoment, workingShares } from './working-load.ts'

export interface WarmUpFacts {
  readonly ladder: LadderId
  readonly protocol: Protocol
  readonly equipment: Equipment
  readonly maximum: Maximum | null
  readonly assumptions: Assumptions
}

const reps = 6
const ofTodaysLoad = 0.5

/** Null for a dose without a measured load, and where nothing the client owns is light enough. */
export function warmUpLoad(dose: Dose, facts: WarmUpFacts): Dose | null {
  const load = (lighter[dose.load.kind] as (load: Load, facts: WarmUpFacts) => Load | null)(dose.load, facts)
  // Whoever does fewer than six today warms up with no more than that.
  return load && { sets: 1, reps: Math.min(reps, dose.reps), holdSeconds: null, load }
}

const lighter: { [Kind in Load['kind']]: (load: Extract<Load, { kind: Kind }>, facts: WarmUpFacts) => Load | null } = {
  none: () => null,
  push: () => null,
  mass: ({ kilograms }, facts) => {
    const most = Math.min(kilograms * ofTodaysLoad, externalForMoment('harness', warmUpMoment(facts), facts.assumptions))
    return bestLoad({ kind: 'mass', kilograms: most }, facts.equipment)
  },
  force: ({ newtons }, facts) => {
    const most = Math.min(newtons * ofTodaysLoad, externalForMoment('band', warmUpMoment(facts), facts.assumptions))
    return bestLoad({ kind: 'force', newtons: most }, facts.equipment)
  },
}

/** Of the load alone: the head's own weight is warmed up to by the easy turns before it. */
function warmUpMoment({ ladder, protocol, maximum }: WarmUpFacts): number {
  return maximum === null ? Infinity : workingShares(ladder, protocol).warmUp * maximum.momentNm
}
