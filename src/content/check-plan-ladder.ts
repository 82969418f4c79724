import { directionsOf, ladderOf } from '#src/domain/direction.ts'
import type { Exercise, Ladder } from '#src/domain/exercise.ts'
import type { Plan } from '#src/domain/plan.ts'
import { plannedLadder } from '#src/rules/plan-ladders.ts'
import { chooseExercises, isOpen } from '#src/rules/choose-exercises.ts'
import type { Content } from './content.ts'
import type { Problem } from './problem.ts'
import type { PathSegment, YamlSource } from './yaml-source.ts'

/** What is wrong with one of the plan's ladders: its direction, its rungs, what was shown, where the client starts. */
export function checkPlanLadder(plan: Plan, index: number, source: YamlSource, content: Content): readonly Problem[] {
  const own = plan.ladders[index]
  if (own === undefined) return []
  const refuse = (path: readonly PathSegment[], message: string, mend: string): readonly Problem[] => [
    source.problem(['ladders', index, ...path], message, mend),
  ]
  const ladder = content.ladders.get(ladderOf(own.direction))
  if (ladder === undefined) {
    const known = [...content.ladders.keys()].flatMap(directionsOf).join(', ')
    return refuse(['direction'], 'has no ladder in the content', `Use one of: ${known}.`)
  }
  if (plan.ladders.findIndex((other) => other.direction === own.direction) < index) {
    return refuse(['direction'], 'stands twice', 'Keep one ladder a direction.')
  }
  const otherSide = plan.ladders.find((other, at) => at < index && ladderOf(other.direction) === ladder.id)
  if (otherSide && (otherSide.rung !== own.rung || otherSide.maxRung !== own.maxRung)) {
    const mend = `Both sides climb as one: write rung ${Math.min(own.rung, otherSide.rung)} and max_rung ${Math.min(own.maxRung, otherSide.maxRung)} for both.`
    return refuse(['rung'], `is not as for ${otherSide.direction}`, mend)
  }
  const top = ladder.rungs.length
  if (own.maxRung > top) {
    return refuse(['max_rung'], `is above the ladder, which has ${top} rungs`, `Lower it to ${top} or less.`)
  }
  if (own.rung > own.maxRung) {
    return refuse(['rung'], 'is above max_rung', `Lower it to ${own.maxRung} or less, or raise max_rung.`)
  }
  return [...checkShown(plan, index, ladder, refuse), ...checkStart(plan, index, ladder, content, refuse)]
}

type Refuse = (path: readonly PathSegment[], message: string, mend: string) => readonly Problem[]

function checkShown(plan: Plan, index: number, ladder: Ladder, refuse: Refuse): readonly Problem[] {
  const onLadder = ladder.rungs.flatMap((rung) => rung.exercises)
  return (plan.ladders[index]?.shown ?? []).flatMap((id, place) => {
    if (onLadder.includes(id)) return []
    return refuse(['shown', place], 'is no exercise of this ladder', `Use one of: ${onLadder.join(', ')}.`)
  })
}

function checkStart(plan: Plan, index: number, ladder: Ladder, content: Content, refuse: Refuse): readonly Problem[] {
  const own = plan.ladders[index]
  if (own === undefined) return []
  const { exercises, triage } = content
  const open = chooseExercises(plan, ladder, exercises, triage.gates)
  const chosen = open.find((choice) => choice.rung === own.rung)?.exercise
  if (chosen === undefined) {
    const ids = ladder.rungs.find((rung) => rung.rung === own.rung)?.exercises ?? []
    const reasons = ids.map((id) => exercises.get(id)).filter((exercise) => exercise !== undefined)
    const message = `is closed to this client: ${reasons.map((exercise) => whyClosed(exercise, plan)).join('; ')}`
    return refuse(['rung'], message, 'Start on another rung, or mend the equipment, the restrictions or the screening.')
  }
  if (plannedLadder(plan, ladder.id)?.shown.includes(chosen.id) === true) return []
  const message = `does not hold ${chosen.id}, which the client starts with`
  return refuse(['shown'], message, `Show it in person, then add ${chosen.id}.`)
}

/** Why an exercise cannot be started: asked of the rule itself, with the rest of the plan out of the way. */
function whyClosed(exercise: Exercise, plan: Plan): string {
  const screening = { ...plan.screening, conditions: [] }
  const unburdened = { ...plan, restrictions: [], contraindications: [], screening }
  const causes: string[] = []
  if (!isOpen(exercise, unburdened)) causes.push(`it needs ${exercise.equipment.join(' and ')}`)
  const { restrictions, contraindications } = exercise.ruledOutBy
  const listed = [...plan.restrictions, ...plan.contraindications, ...plan.screening.conditions]
  const rulings = [...restrictions, ...contraindications].filter((id) => listed.includes(id))
  if (rulings.length > 0) causes.push(`${rulings.join(' and ')} rules it out`)
  if (causes.length > 0) return `${exercise.id}: ${causes.join(', ')}`
  if (exercise.chosenFor.length > 0) return `${exercise.id}: it is only for ${exercise.chosenFor.join(' or ')}`
  return `${exercise.id}: the screening allows holds and band only, and no override_reason is given`
}
