import { flows } from '#flows/registry.ts'
import { createStep } from '#src/chart/step.ts'
import type { ClientKind } from '#src/commands/rehearse/client-kinds.ts'
import { inventClients } from '#src/commands/rehearse/invent-clients.ts'
import { pictureOf } from '#src/commands/rehearse/picture-of.ts'
import { rehearseInvented, type InventedRehearsal } from '#src/commands/rehearse/rehearse-plan.ts'
import type { Plan } from '#src/domain/plan.ts'
import type { PlanPicture } from '#src/reports/plan-picture.ts'
import { content } from '#tests/support/sample-chain.ts'

const step = createStep(content, flows)

export function rehearseKind(plan: Plan, kind: ClientKind, seed: number, weeks = 12): InventedRehearsal {
  const [invented] = inventClients(plan, content, { count: 1, seed, weeks, kind })
  if (invented === undefined) throw new Error('nobody was invented')
  return rehearseInvented(plan, invented.attendances, step, content)
}

export function pictureOfKind(plan: Plan, rehearsal: InventedRehearsal): PlanPicture {
  const words = content.languages.get('en')?.words
  if (words === undefined) throw new Error('no English')
  return pictureOf(plan, content, words, { title: `What the plan of ${plan.client.name} does`, note: 'Invented.', answers: rehearsal.answers.sessions, sessions: rehearsal.sessions })
}
