import { readFileSync } from 'node:fs'
import { loadContent } from '#src/content/load-content.ts'
import type { Content } from '#src/content/content.ts'
import { readPlan } from '#src/content/read-plan.ts'
import type { Chain } from '#src/domain/chain.ts'
import type { Plan } from '#src/domain/plan.ts'
import { chainOf } from '#src/chart/client/plan-facts.ts'
import type { Protocol } from '#src/domain/protocol.ts'

export const content: Content = loadContent('content')

export const extensionPlanText = readFileSync('content/plans/extension.yaml', 'utf8')
/** The plan to try, as shipped. */
export const extensionPlan: Plan = readPlan(extensionPlanText, 'content/plans/extension.yaml', content)

export function novice(): Protocol {
  const protocol = content.protocols.get('novice')
  if (!protocol) throw new Error('no protocol novice')
  return protocol
}

export function chainFor(plan: Plan): Chain {
  return chainOf(plan, 'extension', content)
}

/** Chains of quite different equipment: fine and coarse plates, one band, none, measured or not. */
export const samplePlans: readonly { readonly name: string; readonly plan: Plan }[] = [
  { name: 'everything owned, measured', plan: extensionPlan },
  { name: 'everything owned, not measured', plan: { ...extensionPlan, measurements: [] } },
  { name: 'coarse plates', plan: withEquipment({ platesKg: [1, 1, 2, 5] }) },
  { name: 'fine plates', plan: withEquipment({ platesKg: [0.1, 0.1, 0.25, 0.25, 0.5, 1, 1, 2, 2] }) },
  { name: 'one steep band', plan: withEquipment({ bands: [{ id: 'steep', points: [{ stretchCm: 10, forceN: 5 }, { stretchCm: 20, forceN: 50 }] }] }) },
  { name: 'no band', plan: withEquipment({ bands: [] }) },
  { name: 'no harness', plan: withEquipment({ harnessKg: null }) },
  { name: 'holds only', plan: withEquipment({ bands: [], harnessKg: null, stepCm: null }) },
  { name: 'from the lowest rung', plan: startingAt(1) },
]

function withEquipment(equipment: Partial<Plan['equipment']>): Plan {
  return { ...extensionPlan, equipment: { ...extensionPlan.equipment, ...equipment } }
}

function startingAt(rung: number): Plan {
  return { ...extensionPlan, ladders: extensionPlan.ladders.map((ladder) => ({ ...ladder, rung })) }
}
