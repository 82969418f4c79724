import type { AnyMachineSnapshot, AnyStateMachine } from 'xstate'
import { flows as shippedFlows } from '#flows/registry.ts'
import type { Flow, Flows } from '#src/conversation/flow.ts'
import type { Way } from './ways.ts'

export interface CountedFlows {
  readonly flows: Flows
  /** Every way taken so far. */
  readonly taken: ReadonlySet<Way>
}

/** The same flows, with a note of every way that a conversation takes through them. */
export function countWays(flows: Flows): CountedFlows {
  const taken = new Set<Way>()
  return { flows: new Map([...flows].map(([id, flow]) => [id, counted(flow, taken)])), taken }
}

/** The flows that the walk and everything it begins with share. */
export const { flows: countedFlows, taken: waysTaken } = countWays(shippedFlows)

/** All but the note is the machine's own. */
function counted(flow: Flow, taken: Set<Way>): Flow {
  const transition = (...[snapshot, event, scope]: Parameters<AnyStateMachine['transition']>): AnyMachineSnapshot => {
    for (const way of flow.machine.getTransitionData(snapshot, event)) taken.add(way)
    return flow.machine.transition(snapshot, event, scope)
  }
  return { ...flow, machine: Object.create(flow.machine, { transition: { value: transition } }) as AnyStateMachine }
}
