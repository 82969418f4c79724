import { readFileSync } from 'node:fs'
import { loadContent } from '#src/content/load-content.ts'
import type { Content } from '#src/content/content.ts'
import { readPlan } from '#src/content/read-plan.ts'
import type { Chain, ChainPlace, Place } from '#src/domain/chain.ts'
import { loadMagnitude, type Load } from '#src/domain/dose.ts'
import type { Plan } from '#src/domain/plan.ts'
import { chainOf } from '#src/chart/client/plan-facts.ts'
import type { Protocol } from '#src/domain/protocol.ts'

/** As the demo and the rigs have it: invented people need no signature of the triage content. */
export const content: Content = { ...loadContent('content'), signature: { kind: 'demo' } }

export const extensionPlanText = readFileSync('content/plans/extension.yaml', 'utf8')
/** The plan to try, as shipped. */
export const extensionPlan: Plan = readPlan(extensionPlanText, 'content/plans/extension.yaml', content)

/** Every direction, by turns. */
export const allDirectionsPlan: Plan = readPlan(readFileSync('content/plans/all-directions.yaml', 'utf8'), 'content/plans/all-directions.yaml', content)

export function novice(): Protocol {
  const protocol = content.protocols.get('novice')
  if (!protocol) throw new Error('no protocol novice')
  return protocol
}

export function chainFor(plan: Plan): Chain {
  return chainOf(plan, 'extension', content)
}

/** Plates that force load steps of more than half. */
export const coarsePlan: Plan = withEquipment({ platesKg: [1, 1, 2, 5] })

/** Chains of quite different equipment: fine and coarse plates, one band, none, measured or not. */
export const samplePlans: readonly { readonly name: string; readonly plan: Plan }[] = [
  { name: 'everything owned, measured', plan: extensionPlan },
  { name: 'everything owned, not measured', plan: { ...extensionPlan, measurements: [] } },
  { name: 'coarse plates', plan: coarsePlan },
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

/** A place written as `rung sets × reps [× hold s], load[, again]`: `3 3 × 8, 19.6 N`, `2 3 × 5 × 10 s, push 5, again`. */
export function nameOf({ rung, dose, standing }: Place): string {
  const hold = dose.holdSeconds === null ? '' : ` × ${dose.holdSeconds} s`
  return `${rung} ${dose.sets} × ${dose.reps}${hold}${loadName(dose.load)}${standing === 'again' ? ', again' : ''}`
}

function loadName(load: Load): string {
  const names: Record<Load['kind'], string> = { none: '', push: ', push ', mass: ', ', force: ', ' }
  const units: Record<Load['kind'], string> = { none: '', push: '', mass: ' kg', force: ' N' }
  return load.kind === 'none' ? '' : `${names[load.kind]}${loadMagnitude(load)}${units[load.kind]}`
}

/** The place of that name; throws where there is none, so that a misspelt one cannot pass. */
export function placeNamed(chain: Chain, name: string): ChainPlace {
  const found = chain.places.find((place) => nameOf(place) === name)
  if (found === undefined) throw new RangeError(`no place "${name}" in the chain`)
  return found
}
