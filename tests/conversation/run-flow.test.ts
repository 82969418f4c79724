// `runFlow` does what XState's own `transition` does, without making an actor for every call.
import { transition } from 'xstate'
import { describe, expect, it } from 'vitest'
import { flows } from '#flows/registry.ts'
import type { Facts, Flow, FlowEvent } from '#src/conversation/flow.ts'
import { runFlow } from '#src/conversation/run-flow.ts'

const answers = ['ready', 'done', 'none', 'left-out', 'yes', 3, null, true, false]
const events: readonly FlowEvent[] = [
  ...answers.map((value): FlowEvent => ({ type: 'answer', value })),
  ...(['go', 'stop', 'not-today', 'back', 'close'] as const).map((type): FlowEvent => ({ type })),
]
/** Every fact there is holds, or none does. */
const facts: readonly Facts[] = [{}, new Proxy({}, { get: () => true }) as Facts]

function byLibrary({ machine }: Flow, state: string, context: Facts, event: FlowEvent): unknown {
  const snapshot = machine.resolveState({ value: state, context })
  if (!snapshot.can(event)) return null
  const [next, actions] = transition(machine, snapshot, event)
  return { state: String(next.value), actions: actions.map(({ type, params }) => ({ type, params: params ?? {} })), isDone: next.status === 'done' }
}

describe('a transition', () => {
  it.each([...flows.values()].map((flow) => [flow.id, flow] as const))('of %s is the same as the library makes it, for every state and event', (_, flow) => {
    const cases = Object.keys(flow.machine.states).flatMap((state) => facts.flatMap((known) => events.map((event) => ({ state, known, event }))))
    const conversation = (state: string) => ({ flow: flow.id, version: flow.version, state, data: {} })

    const ours = cases.map(({ state, known, event }) => runFlow(flow, conversation(state), known, event))

    expect(ours).toEqual(cases.map(({ state, known, event }) => byLibrary(flow, state, known, event)))
    expect(ours.some((advance) => advance !== null)).toBe(true)
  })

  it.each([...flows.values()].map((flow) => [flow.id, flow] as const))('of %s gives a state and effects that are whole after JSON, for every state and event', (_, flow) => {
    const states = Object.keys(flow.machine.states)
    const given = states.flatMap((state) =>
      facts.flatMap((known) => events.map((event) => runFlow(flow, { flow: flow.id, version: flow.version, state, data: {} }, known, event))),
    )
    const taken = given.filter((advance) => advance !== null)

    expect(taken.length).toBeGreaterThan(0)
    expect(JSON.parse(JSON.stringify(taken))).toEqual(taken)
    expect(taken.filter(({ state }) => !states.includes(state))).toEqual([])
    expect(taken.flatMap(({ actions }) => actions).filter((action) => Object.keys(action).some((key) => key !== 'type' && key !== 'params'))).toEqual([])
  })

  it('given twice is the same twice', () => {
    const flow = flows.get('session')
    if (!flow) throw new Error('no session flow')
    const run = () => runFlow(flow, { flow: 'session', version: flow.version, state: 'ready', data: {} }, {}, { type: 'answer', value: 'ready' })
    expect(run()).toEqual({ state: 'screen', actions: [{ type: 'begin-session', params: {} }], isDone: false })
    expect(run()).toEqual(run())
  })
})
