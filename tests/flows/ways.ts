// The ways of a flow one by one, so that it can be counted which of them something has taken.
import type { AnyStateMachine, TransitionDefinition } from 'xstate'
import { deskParty } from '#src/chart/desk/desk-party.ts'
import type { Facts, Flow, FlowEvent } from '#src/conversation/flow.ts'
import { metaOf } from '#src/conversation/run-flow.ts'
import { partsOf, sayTest, testOf } from '#tests/pictures/say-test.ts'

// XState's own type has the machine's types in it, which differ from flow to flow.
// eslint-disable-next-line @typescript-eslint/no-explicit-any
export type Way = TransitionDefinition<any, any>
type StateNode = AnyStateMachine['root']

export function askingStatesOf(flow: Flow): readonly string[] {
  return statesOf(flow).filter((state) => 'asks' in (metaOf(flow, state) ?? {}))
}

export function statesOf(flow: Flow): readonly string[] {
  return Object.keys(flow.machine.states)
}

export function isEnd(flow: Flow, state: string): boolean {
  return metaOf(flow, state) === null
}

function nodeOf(flow: Flow, state: string): StateNode {
  const node = flow.machine.states[state] as StateNode | undefined
  if (node === undefined) throw new Error(`no state ${state}`)
  return node
}

/** Whether it is a therapist's; told by its actions. */
export function isOfDesk(flow: Flow): boolean {
  const actions = waysOf(flow).flatMap((way) => way.actions.map((action) => (typeof action === 'string' ? action : String((action as { type: unknown }).type))))
  return actions.every((action) => action === 'keep' || action in deskParty.actions)
}

/** As written: those of each state, and once those of the whole flow. */
export function waysOf(flow: Flow): readonly Way[] {
  return [flow.machine.root, ...statesOf(flow).map((state) => nodeOf(flow, state))].flatMap((node) => [...node.transitions.values()].flat())
}

/** Those among which an event chooses in a state; the whole flow's come last. */
export function waysFor(flow: Flow, state: string, event: FlowEvent['type']): readonly Way[] {
  return [nodeOf(flow, state), flow.machine.root].flatMap((node) => node.transitions.get(event) ?? [])
}

export function eventsOf(flow: Flow, state: string): readonly FlowEvent['type'][] {
  return [...new Set([nodeOf(flow, state), flow.machine.root].flatMap((node) => [...node.transitions.keys()]))] as FlowEvent['type'][]
}

/** `from event, guard → to`, for a list of what was not taken. */
export function sayWay({ source, eventType, guard, target }: Way): string {
  const when = guard === undefined ? '' : `, ${sayTest(testOf(guard))}`
  return `${source.parent === undefined ? 'everywhere' : source.key} ${eventType}${when} → ${target?.[0]?.key ?? source.key}`
}

/** Every combination of what these ways' guards look at in the document. */
export function factsFor(ways: readonly Way[]): readonly Facts[] {
  const values = new Map<string, Set<unknown>>()
  for (const test of ways.flatMap(({ guard }) => (guard === undefined ? [] : partsOf(testOf(guard))))) {
    if (test.kind !== 'fact') continue
    const known = values.get(test.fact) ?? new Set<unknown>(test.value === true ? [false] : ['anything else'])
    values.set(test.fact, known.add(test.value))
  }
  return [...values].reduce<readonly Facts[]>((all, [fact, own]) => all.flatMap((facts) => [...own].map((value) => ({ ...facts, [fact]: value }))), [{}])
}
