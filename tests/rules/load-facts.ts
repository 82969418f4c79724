import { readFileSync } from 'node:fs'
import { assumptionsSchema } from '#src/content/assumptions-schema.ts'
import { readShaped } from '#src/content/read-shaped.ts'
import type { Assumptions, ShippedAssumptions } from '#src/domain/assumptions.ts'
import type { Chain } from '#src/domain/chain.ts'
import type { Plan } from '#src/domain/plan.ts'
import { assumptionsFor } from '#src/rules/assumptions-for.ts'
import { buildChain, type LoadFacts } from '#src/rules/build-chain.ts'
import { chooseExercises } from '#src/rules/choose-exercises.ts'
import { usableMaximum, type Maximum } from '#src/rules/usable-maximum.ts'
import { content, novice } from '../support/sample-chain.ts'

function readAssumptions(): ShippedAssumptions {
  const reading = readShaped(readFileSync('content/assumptions.yaml', 'utf8'), 'content/assumptions.yaml', assumptionsSchema)
  if (reading.kind === 'unreadable') throw new Error('content/assumptions.yaml cannot be read')
  return reading.value
}

export const shippedAssumptions = readAssumptions()
/** 70 kg, of which the head 6.94 %, its middle at 12 cm; everything that pulls at 16 cm. */
export const assumed: Assumptions = assumptionsFor(undefined, shippedAssumptions)
/** The head as if it weighed nothing: for rows in which only the load is of interest. */
export const headless: Assumptions = { ...assumed, headShare: 0 }

/** A maximum as taken at the assumed lever arm of 16 cm, and never lower. */
export function maximumOf(forceN: number): Maximum {
  const strength = { forceN, momentNm: forceN * 0.16 }
  return { ...strength, lowest: strength }
}

/** The extension chain of a plan, with other facts where given. */
export function extensionChain(plan: Plan, facts: Partial<LoadFacts> = {}): Chain {
  const ladder = content.ladders.get('extension')
  const own = plan.ladders.find(({ direction }) => direction === 'extension')
  if (!ladder || !own) throw new Error('no extension')
  const assumptions = assumptionsFor(plan.assumptions, shippedAssumptions)
  const loads = { maximum: usableMaximum(plan.measurements, 'extension', assumptions), assumptions, targetKg: own.targetKg ?? null, ...facts }
  return buildChain({
    ladder: 'extension',
    rungs: chooseExercises(plan, ladder, content.exercises, content.triage.gates),
    equipment: plan.equipment,
    protocol: novice(),
    startRung: own.rung,
    loads,
  })
}
