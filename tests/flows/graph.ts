// A flow's graph, walked by XState's own tools: every event a state can get, with every combination of facts its guards read.
import type { ActorLogic, AnyMachineSnapshot } from 'xstate'
import { getAdjacencyMap, getShortestPaths, type AdjacencyMap, type AdjacencyValue } from 'xstate/graph'
import type { Facts, Flow, FlowEvent } from '#src/conversation/flow.ts'
import { metaOf } from '#src/conversation/run-flow.ts'
import { sampleAnswers } from './sample-answers.ts'
import { eventsOf, factsFor, waysFor, type Way } from './ways.ts'

/** An event together with the facts as they are when it comes. */
export type FactualEvent = FlowEvent & { readonly facts: Facts }

export interface FlowGraph {
  /** Reached by answers and events from where the flow begins or is entered, itself among them. */
  readonly reached: ReadonlySet<string>
  readonly taken: ReadonlySet<Way>
  /** How many events lead from a state to an end, at the least; absent where none does. */
  readonly stepsToEnd: ReadonlyMap<string, number>
}

type Adjacent = AdjacencyMap<AnyMachineSnapshot, FactualEvent>
type MapValue = AdjacencyValue<AnyMachineSnapshot, FactualEvent>
type MapEdge = MapValue['transitions'][keyof MapValue['transitions']]

/** As `runFlow` does it: the facts are worked out afresh before every transition. */
function logicOf({ machine }: Flow): ActorLogic<AnyMachineSnapshot, FactualEvent> {
  return {
    transition: (snapshot, event, scope) => machine.transition(standingAt({ machine }, String(snapshot.value), event.facts), event, scope) as AnyMachineSnapshot,
    getInitialSnapshot: () => machine.getInitialSnapshot({} as never),
    getPersistedSnapshot: (snapshot) => snapshot,
  }
}

export function standingAt({ machine }: Pick<Flow, 'machine'>, state: string, facts: Facts): AnyMachineSnapshot {
  return machine.resolveState({ value: state, context: facts })
}

export function initialOf({ machine }: Flow): string {
  return String(machine.getInitialSnapshot({} as never).value)
}

/** Where a conversation can come to stand without an event: its beginning, where others enter it, its safe state. */
export function entriesOf(flow: Flow): readonly string[] {
  const { enteredAt } = flow.machine.root.meta as { readonly enteredAt: readonly string[] }
  return [...new Set([initialOf(flow), ...enteredAt])]
}

export function eventsAt(flow: Flow, state: string): readonly FactualEvent[] {
  const meta = metaOf(flow, state)
  if (meta === null) return []
  return eventsOf(flow, state).flatMap((type) => {
    const events: readonly FlowEvent[] = type === 'answer' ? ('asks' in meta ? sampleAnswers(meta.asks).map((value) => ({ type, value })) : []) : [{ type }]
    return events.flatMap((event) => factsFor(waysFor(flow, state, type)).map((facts) => ({ ...event, facts })))
  })
}

export function graphOf(flow: Flow): FlowGraph {
  const logic = logicOf(flow)
  const options = {
    events: (snapshot: AnyMachineSnapshot) => eventsAt(flow, String(snapshot.value)),
    serializeState: (snapshot: AnyMachineSnapshot) => String(snapshot.value),
    filterEvents: (snapshot: AnyMachineSnapshot, event: FactualEvent) => standingAt(flow, String(snapshot.value), event.facts).can(event),
  }
  const maps = entriesOf(flow).map((entry) => getAdjacencyMap(logic, { ...options, fromState: standingAt(flow, entry, {}) }) as Adjacent)
  const found = maps.flatMap((map) => Object.values(map) as readonly MapValue[])
  const taken = found.flatMap(({ state, transitions }) =>
    (Object.values(transitions) as readonly MapEdge[]).flatMap(({ event }) => flow.machine.getTransitionData(standingAt(flow, String(state.value), event.facts), event) as readonly Way[]),
  )
  const stepsToEnd = found.flatMap(({ state }) => {
    const paths = getShortestPaths(logic, { ...options, fromState: state, toState: ({ status }) => status === 'done' })
    return paths.length === 0 ? [] : [[String(state.value), Math.min(...paths.map(({ weight }) => weight))] as const]
  })
  return { reached: new Set(maps.flatMap((map) => Object.keys(map))), taken: new Set(taken), stepsToEnd: new Map(stepsToEnd) }
}
