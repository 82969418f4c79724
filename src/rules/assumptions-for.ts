// Decides: which assumptions stand behind one client's loads: the therapist's own, and the shipped ones for the rest.
// Source: content/assumptions.yaml, each value with its own. Reviewed 2026-11.
import type { AssumptionId, Assumptions, OwnAssumptions, ShippedAssumptions, SourcedValue } from '#src/domain/assumptions.ts'

export interface StatedAssumption extends SourcedValue {
  readonly id: AssumptionId
  readonly isTherapists: boolean
}

const ids: Readonly<Record<AssumptionId, true>> = {
  bodyKg: true,
  headShare: true,
  headLeverCm: true,
  testerLeverCm: true,
  bandLeverCm: true,
  harnessLeverCm: true,
}

/** Every assumption in force, with where it comes from: what a therapist is shown, and may change in the plan. */
export function stateAssumptions(own: OwnAssumptions | undefined, shipped: ShippedAssumptions): readonly StatedAssumption[] {
  return (Object.keys(ids) as AssumptionId[]).map((id) => {
    const value = own?.[id]
    if (value !== undefined) return { id, value, source: 'set by the therapist in the plan', isTherapists: true }
    const stated = id === 'headShare' ? shipped.headShare[own?.sex ?? 'unknown'] : shipped[id]
    return { id, ...stated, isTherapists: false }
  })
}

export function assumptionsFor(own: OwnAssumptions | undefined, shipped: ShippedAssumptions): Assumptions {
  const stated = stateAssumptions(own, shipped).map(({ id, value }) => [id, value])
  return Object.fromEntries(stated) as Record<AssumptionId, number>
}
