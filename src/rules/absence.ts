// Decides: what time off does to the dose, counted from the dose last trained.
// Source: our choice, in the spirit of Mujika & Padilla 2001 (strength readily kept up to four weeks, recent gains fall
// sooner) and the CSCCa/NSCA 2019 cuts after two weeks off; for a clinician to review. Reviewed 2026-11.
import type { Chain } from '#src/domain/chain.ts'
import type { Reason } from '#src/domain/decision.ts'
import type { Protocol } from '#src/domain/protocol.ts'
import type { LadderState } from './ladder-state.ts'
import { easeFrom, entryOfRung, locate, maintainAt, placeAt, type PlaceIndex } from './moves.ts'

export interface AfterAbsence {
  readonly place: PlaceIndex
  /** Why the dose is lower; empty where time off changed nothing. */
  readonly reasons: readonly Reason[]
  readonly isTold: boolean
}

/** The place to train at after `daysOff` days; never above the one decided. */
export function afterAbsence(chain: Chain, state: LadderState, daysOff: number, protocol: Protocol): AfterAbsence {
  const decided = locate(chain, state.place)
  const { withdrawAfterDays, easeAfterDays, reenterAfterDays } = protocol.absence
  if (state.lastTrained === null || daysOff <= withdrawAfterDays) return { place: decided, reasons: [], isTold: false }
  const trained = locate(chain, state.lastTrained.place)
  const numbers = { days: daysOff }
  if (daysOff > reenterAfterDays) {
    const lower = Math.min(easeFrom(chain, trained, protocol), entryOfRung(chain, placeAt(chain, trained).rung))
    return { place: Math.min(decided, lower), reasons: [{ rule: 'absence-reentry', numbers }], isTold: true }
  }
  if (daysOff > easeAfterDays) {
    const lower = easeFrom(chain, trained, protocol)
    return { place: Math.min(decided, lower), reasons: [{ rule: 'absence-eased', numbers }], isTold: false }
  }
  const place = maintainAt(chain, Math.min(decided, trained))
  return { place, reasons: place < decided ? [{ rule: 'absence-withdrawn', numbers }] : [], isTold: false }
}
