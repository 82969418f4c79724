// The flows shared out over the test files, so that two cores have their part.
import { expect, it } from 'vitest'
import { flows } from '#flows/registry.ts'
import type { Flow } from '#src/conversation/flow.ts'
import { seed, timeoutMs } from '../../properties/runs.ts'
import { isOfDesk } from '../ways.ts'
import { playFlow, wanted } from './play-flow.ts'

const all = [...flows.values()]
export const deskFlows = all.filter(isOfDesk)
export const clientFlows = all.filter((flow) => !isOfDesk(flow))

export function fuzzes(flow: Flow): void {
  it(`takes ${wanted} hostile messages and presses without a throw, a dead end or a lost answer (seed ${seed})`, { timeout: timeoutMs }, () => {
    const { counted, emergencies } = playFlow(flow)
    expect(counted).toBeGreaterThanOrEqual(wanted)
    expect(emergencies > 0).toBe(!isOfDesk(flow))
  })
}
