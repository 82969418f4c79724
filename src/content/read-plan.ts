import { readZone } from '#src/domain/zone.ts'
import type { Plan } from '#src/domain/plan.ts'
import { checkMeasurements } from './check-measurements.ts'
import { checkPlan } from './check-plan.ts'
import type { Content } from './content.ts'
import { planSchema } from './plan-schema.ts'
import { ContentError, type Problem } from './problem.ts'
import { readShaped } from './read-shaped.ts'

export interface PlanReading {
  readonly plan: Plan
  /** What may be right and seems wrong. */
  readonly doubts: readonly Problem[]
}

/** Reads a plan for a client. Throws a {@link ContentError} that lists every problem, doubts among them. */
export function readPlan(yamlText: string, file: string, content: Content): Plan {
  const { plan, doubts } = readPlanToTry(yamlText, file, content)
  if (doubts.length > 0) throw new ContentError(doubts)
  return plan
}

/** Reads a plan that nobody trains by, and checks it against the content. Throws a {@link ContentError}. */
export function readPlanToTry(yamlText: string, file: string, content: Content): PlanReading {
  const reading = readShaped(yamlText, file, planSchema)
  if (reading.kind === 'unreadable') throw new ContentError(reading.problems)
  const { refused, doubted } = checkMeasurements(reading.value, reading.source)
  const problems = [...checkPlan(reading.value, reading.source, content), ...refused]
  if (problems.length > 0) throw new ContentError([...problems, ...doubted])
  const zone = readZone(reading.value.zone)
  return { plan: zone.kind === 'zone' ? { ...reading.value, zone: zone.zone } : reading.value, doubts: doubted }
}
