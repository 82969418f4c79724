import { readZone } from '#src/domain/zone.ts'
import type { Plan } from '#src/domain/plan.ts'
import { checkPlan } from './check-plan.ts'
import type { Content } from './content.ts'
import { planSchema } from './plan-schema.ts'
import { ContentError } from './problem.ts'
import { readShaped } from './read-shaped.ts'

/** Reads a plan and checks it against the content. Throws a {@link ContentError} that lists every problem. */
export function readPlan(yamlText: string, file: string, content: Content): Plan {
  const reading = readShaped(yamlText, file, planSchema)
  if (reading.kind === 'unreadable') throw new ContentError(reading.problems)
  const problems = checkPlan(reading.value, reading.source, content)
  if (problems.length > 0) throw new ContentError(problems)
  const zone = readZone(reading.value.zone)
  return zone.kind === 'zone' ? { ...reading.value, zone: zone.zone } : reading.value
}
