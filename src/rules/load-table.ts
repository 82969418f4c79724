// Decides: what a therapist is shown as the warm-up, starting and target load of a loaded exercise, before prescribing it.
// Source: the shares of the protocol, the stated assumptions, and what the client owns. Reviewed 2026-11.
import type { Load } from '#src/domain/dose.ts'
import type { Equipment } from '#src/domain/plan.ts'
import { bestLoad, type LoadTarget } from './available-loads.ts'
import { headMoment } from './gravity-moment.ts'
import { workingLoads, workingShares, type LoadQuestion, type Purpose, type Tool } from './working-load.ts'

export interface LoadRow {
  readonly purpose: Purpose
  readonly share: number
  /** Newtons of a band or kilograms hung; null where the head alone is the target share already. */
  readonly external: number | null
  /** The most the client owns that is not above it. */
  readonly owned: Load | null
}

export interface LoadTable {
  /** The head's own weight in the exercise's posture, as a share of the maximum. */
  readonly headShareOfMaximum: number
  readonly rows: readonly LoadRow[]
}

const targetOf: Record<Tool, (external: number) => LoadTarget> = {
  band: (newtons) => ({ kind: 'force', newtons }),
  harness: (kilograms) => ({ kind: 'mass', kilograms }),
}

export function loadTable(question: LoadQuestion, equipment: Equipment): LoadTable {
  const { ladder, protocol, posture, assumptions, maximum, tool } = question
  const shares = workingShares(ladder, protocol)
  const loads = workingLoads(question)
  const rows = (['warmUp', 'start', 'target'] as const).map((purpose): LoadRow => {
    const [share, external] = [shares[purpose], loads[purpose]]
    if (external <= 0) return { purpose, share, external: null, owned: null }
    return { purpose, share, external, owned: bestLoad(targetOf[tool](external), equipment) }
  })
  return { headShareOfMaximum: headMoment(posture, assumptions) / maximum.momentNm, rows }
}
