import type { Plan } from '#src/domain/plan.ts'
import { mayBeKnown } from '#src/domain/triage.ts'
import { readZone } from '#src/domain/zone.ts'
import { isInQuiet } from '#src/schedule/quiet-hours.ts'
import { checkPlanLadder } from './check-plan-ladder.ts'
import { checkThresholds } from './check-thresholds.ts'
import type { Content } from './content.ts'
import { knownConditions, knownContraindications } from './known-ids.ts'
import type { Problem } from './problem.ts'
import type { PathSegment, YamlSource } from './yaml-source.ts'

/** What a plan of the right shape may still have wrong: everything that it says about the content. */
export function checkPlan(plan: Plan, source: YamlSource, content: Content): readonly Problem[] {
  return [
    ...checkIds(plan, source, content),
    ...checkZone(plan, source),
    ...checkQuiet(plan, source),
    ...checkBands(plan, source),
    ...checkKnownSigns(plan, source, content),
    ...checkThresholds(plan, source, content),
    ...plan.ladders.flatMap((_, index) => checkPlanLadder(plan, index, source, content)),
  ]
}

function checkIds(plan: Plan, source: YamlSource, content: Content): readonly Problem[] {
  const exercises = [...content.exercises.values()]
  const check = (ids: readonly string[], known: readonly string[], pathOf: PathOf): readonly Problem[] =>
    ids.flatMap((id, index) => {
      if (known.includes(id)) return []
      return [source.problem(pathOf(index), 'is not known in the content', `Use one of: ${known.join(', ')}.`)]
    })
  const listed = (...path: PathSegment[]): PathOf => (index) => [...path, index]
  return [
    ...check([plan.client.language], [...content.languages.keys()], () => ['client', 'language']),
    ...check([plan.protocol], [...content.protocols.keys()], () => ['protocol']),
    ...check(plan.screening.conditions, knownConditions(content.triage.gates), listed('screening', 'conditions')),
    ...check(plan.restrictions, content.restrictions, listed('restrictions')),
    ...check(plan.contraindications, knownContraindications(exercises), listed('contraindications')),
  ]
}

type PathOf = (index: number) => readonly PathSegment[]

type UnusableZone = Extract<ReturnType<typeof readZone>, { kind: 'unusable' }>['reason']

const zoneMessages: Record<UnusableZone, string> = {
  empty: 'must not be empty',
  unknown: 'is not a time zone known here',
  abbreviation: 'is an abbreviation, which does not say when the clocks change',
  'fixed-offset': 'is a fixed offset, which does not say when the clocks change',
}

function checkZone(plan: Plan, source: YamlSource): readonly Problem[] {
  const reading = readZone(plan.zone)
  if (reading.kind === 'zone') return []
  return [source.problem(['zone'], zoneMessages[reading.reason], 'Write area and city, e.g. Europe/Dublin.')]
}

/** A reminder inside the quiet hours would never come, and nobody would notice. */
function checkQuiet({ schedule }: Plan, source: YamlSource): readonly Problem[] {
  if (!isInQuiet(schedule.time, schedule.quiet)) return []
  return [source.problem(['schedule', 'time'], 'lies in the quiet hours', 'Change schedule.time or schedule.quiet.')]
}

function checkBands(plan: Plan, source: YamlSource): readonly Problem[] {
  const ids = plan.equipment.bands.map((band) => band.id)
  return ids.flatMap((id, index) => {
    if (ids.indexOf(id) === index) return []
    return [source.problem(['equipment', 'bands', index, 'id'], 'stands twice', 'Give each band an id of its own.')]
  })
}

function checkKnownSigns(plan: Plan, source: YamlSource, { triage }: Content): readonly Problem[] {
  return plan.knownSigns.flatMap(({ sign }, index) => {
    const path = ['known_signs', index, 'sign']
    const known = triage.signs.find((other) => other.id === sign)
    const recordable = triage.signs.filter((other) => mayBeKnown(other, triage)).map((other) => other.id)
    const mend = `Use one of: ${recordable.join(', ')}.`
    if (known === undefined) return [source.problem(path, 'is not known in the content', mend)]
    if (mayBeKnown(known, triage)) return []
    const why = known.level === 'emergency' ? 'is an emergency sign and cannot be recorded as known' : 'is new whenever it comes and cannot be recorded as known'
    return [source.problem(path, why, mend)]
  })
}
