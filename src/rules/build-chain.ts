// Decides: every dose of one client in one ladder, from the lowest to the highest, in one order.
// Source: ladder defaults (our choice, for a clinician to review): holds first, then band, harness, bridge; entry doses,
// climb and criteria to leave as the exercises and the protocol say. Reviewed 2026-11.
import type { Chain, ChainPlace } from '#src/domain/chain.ts'
import type { LadderId } from '#src/domain/direction.ts'
import { loadMagnitude, type Dose, type Load } from '#src/domain/dose.ts'
import type { Exercise, HoldStep, Work } from '#src/domain/exercise.ts'
import type { Equipment } from '#src/domain/plan.ts'
import type { Protocol } from '#src/domain/protocol.ts'
import { standardGravity, weightOf } from '#src/domain/units.ts'
import { bandLoads, harnessLoads } from './available-loads.ts'
import type { RungExercise } from './choose-exercises.ts'
import { climbLoads, type LoadStep } from './climb-loads.ts'

export interface ChainInput {
  readonly ladder: LadderId
  readonly rungs: readonly RungExercise[]
  readonly equipment: Equipment
  readonly protocol: Protocol
  /** Maximal voluntary isometric contraction in newtons; null where none was measured. */
  readonly maximumN: number | null
  /** Where the plan starts: the chain reaches at least this far. */
  readonly startRung: number
}

/** What one rung gives: its steps, and whether its criterion to leave can be met at all. */
interface Climb {
  readonly steps: readonly Step[]
  readonly canBeLeft: boolean
}

/** A dose of a rung before it is known which ones stand twice. */
interface Step {
  readonly dose: Dose
  readonly isEntry: boolean
  readonly needsApproval: boolean
}

export function buildChain(input: ChainInput): Chain {
  const places: ChainPlace[] = []
  for (const { rung, exercise } of input.rungs) {
    const climb = climbOf[exercise.work.kind](exercise, input, bandForceReached(places))
    places.push(...standTwice(climb.steps, rung, exercise))
    // No value to reach, no request: without its criterion a rung is the last one that the rules know.
    if (!climb.canBeLeft && rung >= input.startRung) break
  }
  return { ladder: input.ladder, places }
}

const climbOf: { [Kind in Work['kind']]: (exercise: Exercise, input: ChainInput, bandForceN: number | null) => Climb } = {
  holds: (exercise, input) => ({ steps: holdSteps(exercise, input), canBeLeft: true }),
  repetitions: (exercise, input, bandForceN) =>
    exercise.work.kind === 'repetitions' && exercise.work.load === 'band'
      ? bandSteps(input)
      : harnessSteps(input, bandForceN),
}

function holdSteps(exercise: Exercise, { protocol, ladder }: ChainInput): readonly Step[] {
  if (exercise.work.kind !== 'holds') return []
  const { below, entry, above } = exercise.work
  return [...below, entry, ...above].map((step) => ({
    dose: { sets: protocol.sets[ladder], reps: step.reps, holdSeconds: step.holdSeconds, load: pushOf(step) },
    isEntry: step === entry,
    needsApproval: false,
  }))
}

function pushOf(step: HoldStep): Load {
  return step.push === null ? { kind: 'none' } : { kind: 'push', effort: step.push }
}

/** From the entry force to the first that is enough to leave; without a measured maximum, two force steps above entry. */
function bandSteps(input: ChainInput): Climb {
  const { protocol, maximumN } = input
  const loads = bandLoads(input.equipment.bands)
  const allowed = maximumN === null ? [] : loads.filter((load) => load.newtons <= maximumN * protocol.maximum.bandEntry)
  const entry = allowed.at(-1) ?? loads[0]
  if (entry === undefined) return nothing
  const ceiling = maximumN === null ? Infinity : maximumN * protocol.maximum.ceiling
  if (entry.newtons > ceiling) return nothing
  const climb = climbLoads(entry, loads, protocol, ceiling)
  const enough = climb.findIndex(
    (step, index) =>
      index >= protocol.band.stepsAboveEntry &&
      (maximumN === null || step.load.newtons >= maximumN * protocol.maximum.bandLeave),
  )
  const isEntryTooHigh = maximumN !== null && allowed.length === 0
  const steps = repetitionSteps(input, enough < 0 ? climb : climb.slice(0, enough + 1), isEntryTooHigh)
  return { steps, canBeLeft: enough >= 0 }
}

/** From the empty harness up to the ceiling; never begun above the entry limit. */
function harnessSteps(input: ChainInput, bandForceN: number | null): Climb {
  const { protocol, maximumN } = input
  const loads = harnessLoads(input.equipment)
  const entry = loads[0]
  if (entry === undefined || entry.kilograms > protocol.harness.entryUpToKg) return nothing
  const byMaximum = maximumN === null ? Infinity : (maximumN * protocol.maximum.ceiling) / standardGravity
  const ceiling = Math.min(protocol.harness.ceilingKg, byMaximum)
  if (entry.kilograms > ceiling) return nothing
  // Both pull at the head with the same lever arm, so that the moments compare as the forces do.
  const isAboveBand = bandForceN !== null && weightOf(entry.kilograms) > bandForceN
  const climb = climbLoads(entry, loads, protocol, ceiling)
  return { steps: repetitionSteps(input, climb, isAboveBand), canBeLeft: maximumN !== null }
}

/** A rung with no load that its client may start from is passed over. */
const nothing: Climb = { steps: [], canBeLeft: true }

function bandForceReached(places: readonly ChainPlace[]): number | null {
  const load = places.at(-1)?.dose.load
  return load?.kind === 'force' ? load.newtons : null
}

function repetitionSteps({ protocol, ladder }: ChainInput, climb: readonly LoadStep<Load>[], isEntryTooHigh: boolean): readonly Step[] {
  const { below, range, beyond } = protocol.repetitions
  return climb.flatMap(({ load, beyondPlaces, needsApproval }, index) => {
    const isFirst = index === 0
    const reps = [...(isFirst ? below : []), ...range, ...beyond.slice(0, beyondPlaces)]
    return reps.map((count) => ({
      dose: { sets: protocol.sets[ladder], reps: count, holdSeconds: null, load },
      isEntry: isFirst && count === range[0],
      needsApproval: count === range[0] && (isFirst ? isEntryTooHigh : needsApproval),
    }))
  })
}

/** The last dose before a load step, and of the rung, stands twice: met once, met again. */
function standTwice(steps: readonly Step[], rung: number, exercise: Exercise): ChainPlace[] {
  return steps.flatMap((step, index): ChainPlace[] => {
    const next = steps[index + 1]
    const isLast = next === undefined || loadMagnitude(next.dose.load) > loadMagnitude(step.dose.load)
    const place = { rung, exercise: exercise.id, isTherapistOnly: exercise.isTherapistOnly, ...step }
    return isLast
      ? [
          { ...place, standing: 'once' },
          { ...place, standing: 'again', isEntry: false, needsApproval: false },
        ]
      : [{ ...place, standing: 'only' }]
  })
}
