// Decides: in which steps a client climbs from one external load to the next with what they own.
// Source: a step of at most 10 % (ACSM 2009: 2–10 %); a larger one only where the equipment forces it, after repetitions
// beyond the range, and above half only with the therapist's approval (our choice). Reviewed 2026-11.
import { loadMagnitude, type Load } from '#src/domain/dose.ts'
import type { Protocol } from '#src/domain/protocol.ts'
import { epsilon } from '#src/domain/units.ts'

export interface LoadStep<L extends Load> {
  readonly load: L
  /** How many places beyond the repetition range are asked for before leaving this load. */
  readonly beyondPlaces: number
  /** Reaching this load is so large a step that the therapist must approve it. */
  readonly needsApproval: boolean
}

/**
 * The loads from `entry` on, easiest first, none above `ceiling`. The steps are chosen as if there were no ceiling: when a
 * retest moves it, a client's load is still one of the chain's.
 */
export function climbLoads<L extends Load>(
  entry: L,
  available: readonly L[],
  protocol: Protocol,
  ceiling: number,
): readonly LoadStep<L>[] {
  const steps: LoadStep<L>[] = []
  let load = entry
  let needsApproval = false
  for (;;) {
    const next = nextLoad(load, available, protocol)
    if (next === undefined || loadMagnitude(next) > ceiling + epsilon) return [...steps, { load, beyondPlaces: 0, needsApproval }]
    const jump = loadMagnitude(next) / loadMagnitude(load) - 1
    steps.push({ load, beyondPlaces: beyondPlaces(jump, protocol), needsApproval })
    needsApproval = jump > protocol.loadStep.approvalAbove + epsilon && !isFirstPlate(load, next, protocol)
    load = next
  }
}

/** The largest usual step, on the same band if it has one; else the smallest step that the equipment allows. */
function nextLoad<L extends Load>(from: L, available: readonly L[], protocol: Protocol): L | undefined {
  const size = loadMagnitude(from)
  const higher = available.filter((load) => loadMagnitude(load) > size + epsilon)
  const usual = higher.filter((load) => loadMagnitude(load) <= size * (1 + protocol.loadStep.largest) + epsilon)
  return usual.filter((load) => bandOf(load) === bandOf(from)).at(-1) ?? usual.at(-1) ?? higher[0]
}

/** Weights are on none, and so all alike. */
function bandOf(load: Load): string | null {
  return load.kind === 'force' ? load.band : null
}

function beyondPlaces(jump: number, protocol: Protocol): number {
  const { largest, farAbove, beyondPlaces: few, farBeyondPlaces: many } = protocol.loadStep
  if (jump > farAbove + epsilon) return many
  return jump > largest + epsilon ? few : 0
}

/** From the empty harness to one small plate: half a kilogram is little, however large its share of the harness. */
function isFirstPlate(from: Load, to: Load, protocol: Protocol): boolean {
  return (
    from.kind === 'mass' &&
    from.plates.length === 0 &&
    loadMagnitude(to) - from.kilograms <= protocol.loadStep.firstPlateKg + epsilon
  )
}
