// Decides: every dose of one client in one ladder, from the lowest to the highest, in one order.
// Source: ladder defaults (our choice, for a clinician to review): holds first, then band, harness, bridge; entry doses,
// climb and criteria to leave as the exercises and the protocol say. Reviewed 2026-11.
import type { Assumptions } from '#src/domain/assumptions.ts'
import type { Chain, ChainPlace } from '#src/domain/chain.ts'
import type { LadderId } from '#src/domain/direction.ts'
import { loadMagnitude, type Dose, type Load } from '#src/domain/dose.ts'
import type { Exercise, HoldStep, Work } from '#src/domain/exercise.ts'
import type { Equipment } from '#src/domain/plan.ts'
import type { Protocol } from '#src/domain/protocol.ts'
import type { RungExercise } from './choose-exercises.ts'
import type { LoadStep } from './climb-loads.ts'
import { headMoment } from './gravity-moment.ts'
import { loadedClimb } from './loaded-climb.ts'
import type { Maximum } from './usable-maximum.ts'
import { hardShare, neckMoment, workingShares } from './working-load.ts'

export interface ChainInput {
  readonly ladder: LadderId
  readonly rungs: readonly RungExercise[]
  readonly equipment: Equipment
  readonly protocol: Protocol
  /** Where the plan starts: the chain reaches at least this far. */
  readonly startRung: number
  readonly loads: LoadFacts
}

export interface LoadFacts {
  /** Null where none was measured. */
  readonly maximum: Maximum | null
  readonly assumptions: Assumptions
  /** Where the therapist has the harness left; null where they state no weight. */
  readonly targetKg: number | null
}

/** What one rung gives: its steps, and whether its criterion to leave can be met at all. */
interface Climb {
  readonly steps: readonly Step[]
  readonly canBeLeft: boolean
  /** What the neck holds at the last of a loaded rung, in newton metres. */
  readonly reachedNm: number | null
}

/** A dose of a rung before it is known which ones stand twice. */
interface Step {
  readonly dose: Dose
  readonly isEntry: boolean
  readonly needsApproval: boolean
}

export function buildChain(input: ChainInput): Chain {
  const places: ChainPlace[] = []
  let reachedNm: number | null = null
  for (const { rung, exercise } of input.rungs) {
    const climb = (climbOf[exercise.work.kind] as ClimbOf<Work>)(exercise.work, exercise, input, reachedNm)
    places.push(...standTwice(climb.steps, rung, exercise))
    reachedNm = climb.reachedNm ?? reachedNm
    // No value to reach, no request: without its criterion a rung is the last one that the rules know.
    if (!climb.canBeLeft && rung >= input.startRung) break
  }
  return { ladder: input.ladder, places }
}

type ClimbOf<W extends Work> = (work: W, exercise: Exercise, input: ChainInput, reachedNm: number | null) => Climb
type Holds = Extract<Work, { kind: 'holds' }>
type Repetitions = Extract<Work, { kind: 'repetitions' }>

const climbOf: { [Kind in Work['kind']]: ClimbOf<Extract<Work, { kind: Kind }>> } = { holds: heldSteps, repetitions: loadedSteps }

/** A head that is lifted is a load: above the target it takes the therapist's approval, above the hard bound it is not offered. */
function heldSteps(work: Holds, { posture }: Exercise, input: ChainInput): Climb {
  const { maximum, assumptions } = input.loads
  const share = maximum === null ? 0 : headMoment(posture, assumptions) / maximum.momentNm
  if (share > hardShare) return { steps: [], canBeLeft: false, reachedNm: null }
  const isTooHigh = share > workingShares(input.ladder, input.protocol).target
  return { steps: holdSteps(work, input, isTooHigh), canBeLeft: true, reachedNm: null }
}

function loadedSteps(work: Repetitions, { posture }: Exercise, input: ChainInput, reachedNm: number | null): Climb {
  const { ladder, equipment, protocol, loads } = input
  const climb = loadedClimb[work.load]({ ladder, equipment, protocol, posture, reachedNm, ...loads })
  const last = climb.steps.at(-1)
  return {
    steps: repetitionSteps(input, climb.steps, climb.isEntryTooHigh),
    canBeLeft: climb.canBeLeft,
    reachedNm: last ? neckMoment(last.load, posture, loads.assumptions) : null,
  }
}

function holdSteps({ below, entry, above }: Holds, { protocol, ladder }: ChainInput, isEntryTooHigh: boolean): readonly Step[] {
  return [...below, entry, ...above].map((step) => ({
    dose: { sets: protocol.sets[ladder], reps: step.reps, holdSeconds: step.holdSeconds, load: pushOf(step) },
    isEntry: step === entry,
    needsApproval: isEntryTooHigh && step === entry,
  }))
}

function pushOf(step: HoldStep): Load {
  return step.push === null ? { kind: 'none' } : { kind: 'push', effort: step.push }
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
