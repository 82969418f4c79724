// What `check` looks for in a conversation: every state is reached, can be left, and has words for what it asks.
import type { Flow, StateMeta } from './flow.ts'
import { metaOf } from './run-flow.ts'

export interface FlowProblem {
  readonly flow: string
  readonly state: string
  readonly message: string
  readonly mend: string
}

interface Edge {
  readonly from: string
  readonly to: string
  readonly event: string
}

const root = '(root)'

export function checkFlow(flow: Flow): readonly FlowProblem[] {
  const edges = edgesOf(flow)
  const problem = (state: string, message: string, mend: string): FlowProblem => ({ flow: flow.id, state, message, mend })
  const names = Object.keys(flow.machine.states)
  const reached = reachable([String(flow.machine.getInitialSnapshot({} as never).value), ...entryStates(flow)], edges)
  return names.flatMap((state) => [
    ...(reached.has(state) ? [] : [problem(state, 'is never reached', 'Lead an answer there, or remove it.')]),
    ...(canBeLeft(flow, state, edges) ? [] : [problem(state, 'cannot be left', 'Give its answer somewhere to lead.')]),
    ...(isFinal(flow, state) || metaOf(flow, state) !== null ? [] : [problem(state, 'neither asks nor decides', 'Say what it asks, or what it decides by.')]),
  ])
}

/** A flow that others enter elsewhere than at its beginning names those states in its machine's meta. */
function entryStates(flow: Flow): readonly string[] {
  const meta = flow.machine.root.meta as { readonly enteredAt?: readonly string[] } | undefined
  return meta?.enteredAt ?? []
}

export function edgesOf(flow: Flow): readonly Edge[] {
  const { root: machineRoot } = flow.machine
  const of = (from: string, node: typeof machineRoot): Edge[] =>
    [...node.transitions.values()].flat().flatMap((transition) =>
      (transition.target ?? []).map((target) => ({ from, to: target.key, event: transition.eventType })),
    )
  return [...of(root, machineRoot), ...Object.entries(flow.machine.states).flatMap(([name, node]) => of(name, node as typeof machineRoot))]
}

function reachable(starts: readonly string[], edges: readonly Edge[]): ReadonlySet<string> {
  const found = new Set(starts)
  for (let size = 0; size < found.size; ) {
    size = found.size
    for (const edge of edges) if (edge.from === root || found.has(edge.from)) found.add(edge.to)
  }
  return found
}

function isFinal(flow: Flow, state: string): boolean {
  return flow.machine.states[state]?.type === 'final'
}

/** A final state from which nothing leads is an end; any other has to lead somewhere else. */
function canBeLeft(flow: Flow, state: string, edges: readonly Edge[]): boolean {
  return isFinal(flow, state) || edges.some((edge) => edge.from === state && edge.to !== state)
}

/** The texts that a flow's questions need. */
export function wordingKeysOf(flow: Flow): readonly string[] {
  return Object.keys(flow.machine.states).flatMap((state) => {
    const meta: StateMeta | null = metaOf(flow, state)
    if (meta === null || !('asks' in meta)) return []
    const { asks, words } = meta
    const options = 'options' in asks ? asks.options.flatMap((option) => [option.words ?? [], option.saidAs ?? [], option.saidIn ?? [], option.unless ?? []].flat()) : []
    return [`${words}.ask`, `${words}.example`, `${words}.why`, ...options]
  })
}
