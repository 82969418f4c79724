// Scripts played against plans through the very step, as `rehearse` does it.
import { flows } from '#flows/registry.ts'
import { createStep } from '#src/chart/step.ts'
import type { Answers } from '#src/commands/rehearse/answers-schema.ts'
import type { RehearsedSession } from '#src/commands/rehearse/collect-session.ts'
import { rehearsePlan } from '#src/commands/rehearse/rehearse-plan.ts'
import type { Plan } from '#src/domain/plan.ts'
import { content } from './sample-chain.ts'

const step = createStep(content, flows)

export function play(plan: Plan, answers: Answers): readonly RehearsedSession[] {
  return rehearsePlan(plan, answers, step, content).sessions
}
