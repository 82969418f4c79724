// The part of an enrolment that is asked once a ladder: what is chosen, what is answered, what comes next.
import type { Content } from '#src/content/content.ts'
import type { Conversation } from '#src/conversation/flow.ts'
import type { MeasuredForce } from '#src/conversation/questions/measured-force.ts'
import { directionsOf, ladderIds, type Direction, type LadderId } from '#src/domain/direction.ts'
import { brandAs, type ExerciseId, type LocalDate } from '#src/domain/identifier.ts'
import type { LadderPlan, Measurement, Plan } from '#src/domain/plan.ts'
import { chooseExercises, type RungExercise } from '#src/rules/choose-exercises.ts'

type Data = Conversation['data']

/** What was answered about one ladder; a direction that was not measured is null. */
export interface LadderAnswers {
  readonly ladder: LadderId
  readonly rung: number
  readonly maxRung: number
  readonly shown: readonly string[]
  readonly measured: readonly (MeasuredForce | null)[]
}

export function doneLadders(data: Data): readonly LadderAnswers[] {
  const done = data['ladder-plans']
  return Array.isArray(done) ? (done as readonly LadderAnswers[]) : []
}

export function chosenLadders(data: Data): readonly LadderId[] {
  const chosen = data.ladders
  return ladderIds.filter((id) => Array.isArray(chosen) && chosen.includes(id))
}

/** The ladder that is being asked about; null once every one is done. */
export function currentLadder(data: Data): LadderId | null {
  return chosenLadders(data)[doneLadders(data).length] ?? null
}

/** What is answered so far about the present ladder. */
export function underWay(data: Data): Omit<LadderAnswers, 'ladder'> {
  const rung = Number(data.rung ?? 1)
  const { shown, measured } = data
  return {
    rung,
    maxRung: Math.max(rung, Number(data['max-rung'] ?? rung)),
    shown: Array.isArray(shown) ? shown.map(String) : [],
    measured: Array.isArray(measured) ? (measured as LadderAnswers['measured']) : [],
  }
}

const ofOneLadder: ReadonlySet<string> = new Set(['max-rung', 'shown', 'measured', 'measurement'])

/** Without the answers about the present ladder, but for its rung. */
export function withoutUnderWay(data: Data): Data {
  return Object.fromEntries(Object.entries(data).filter(([key]) => !ofOneLadder.has(key)))
}

/** The direction whose maximum is asked for now; null where none is left. */
export function directionToMeasure(data: Data): Direction | null {
  const ladder = currentLadder(data)
  return ladder === null ? null : (directionsOf(ladder)[underWay(data).measured.length] ?? null)
}

export function planLaddersOf(done: readonly LadderAnswers[]): readonly LadderPlan[] {
  return done.flatMap(({ ladder, rung, maxRung, shown }) =>
    directionsOf(ladder).map((direction) => ({ direction, rung, maxRung, shown: shown.map((id) => brandAs<ExerciseId>(id)) })),
  )
}

export function measurementsOf(done: readonly LadderAnswers[], on: LocalDate): readonly Measurement[] {
  return done.flatMap(({ ladder, measured }) =>
    directionsOf(ladder).flatMap((direction, index) => {
      const taken = measured[index]
      return taken ? [measurementOf(direction, taken, on)] : []
    }),
  )
}

/** The best trial counts. */
export function measurementOf(direction: Direction, { trials, unit, leverCm }: MeasuredForce, on: LocalDate): Measurement {
  return { direction, force: Math.max(...trials), unit, leverCm, on, trials }
}

/** The rungs of a ladder that equipment, restrictions and screening leave open, whatever the highest is to be. */
export function openRungs(plan: Plan, id: LadderId, content: Content): readonly RungExercise[] {
  const ladder = content.ladders.get(id)
  if (ladder === undefined) return []
  const ladders = directionsOf(id).map((direction) => ({ direction, rung: 1, maxRung: ladder.rungs.length, shown: [] }))
  return chooseExercises({ ...plan, ladders }, ladder, content.exercises, content.triage.gates)
}

/** A maximum bounds loads; where no rung up to the highest has one, it is not asked for. */
export function needsMaximum(rungs: readonly RungExercise[], maxRung: number): boolean {
  return rungs.some(({ rung, exercise }) => rung <= maxRung && exercise.work.kind === 'repetitions')
}
