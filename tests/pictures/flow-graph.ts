// A flow as its picture and its page show it: states, what each asks, and where each event leads, in words.
import { readFileSync } from 'node:fs'
import type { Flow, FlowEvent } from '#src/conversation/flow.ts'
import { metaOf } from '#src/conversation/run-flow.ts'
import type { Words } from '#src/content/content.ts'
import { sayTest, testOf } from './say-test.ts'

/** Where one event leads. */
export interface ShownWay {
  readonly event: FlowEvent['type']
  /** What has to hold, in words; empty where the event alone decides. */
  readonly when: string
  readonly to: string
  readonly actions: readonly string[]
}

export interface ShownState {
  readonly name: string
  /** `elsewhere` only in pictures: it goes on at the state of that name. */
  readonly kind: 'asks' | 'decides' | 'ends' | 'elsewhere'
  /** In English, with the names of what is filled in; null where nothing is asked. */
  readonly question: string | null
  readonly ways: readonly ShownWay[]
  /** How a conversation comes to stand here without an event. */
  readonly notes: readonly string[]
}

export interface ShownFlow {
  readonly id: string
  /** What it is for. */
  readonly purpose: string
  readonly initial: string
  /** In the order in which a conversation comes to them, the nearest first. */
  readonly states: readonly ShownState[]
  /** In every state that says nothing else about the event. */
  readonly everywhere: readonly ShownWay[]
}

type StateNode = Flow['machine']['root']

export function showFlow(flow: Flow, words: Words): ShownFlow {
  const { root } = flow.machine
  const initial = String(flow.machine.getInitialSnapshot({} as never).value)
  const nodes = Object.entries(flow.machine.states) as [string, StateNode][]
  const states = nodes.map(([name, node]) => ({
    name,
    kind: kindOf(flow, name),
    question: questionOf(flow, name, words),
    ways: waysOf(name, node),
    notes: notesOf(flow, name, initial),
  }))
  return { id: flow.id, purpose: purposeOf(flow.id), initial, states: inOrder(states, initial), everywhere: waysOf('', root) }
}

function inOrder(states: readonly ShownState[], initial: string): readonly ShownState[] {
  const found = new Set([initial])
  for (const name of found) states.find((state) => state.name === name)?.ways.forEach(({ to }) => found.add(to))
  const reached = [...found].flatMap((name) => states.find((state) => state.name === name) ?? [])
  return [...reached, ...states.filter(({ name }) => !found.has(name))]
}

function kindOf(flow: Flow, state: string): ShownState['kind'] {
  const meta = metaOf(flow, state)
  if (meta === null) return 'ends'
  return 'asks' in meta ? 'asks' : 'decides'
}

function questionOf(flow: Flow, state: string, words: Words): string | null {
  const meta = metaOf(flow, state)
  if (meta === null || !('asks' in meta)) return null
  return words.say(`${meta.words}.ask`, ownNames).replaceAll(/\s+/g, ' ').trim()
}

/** Every value of a text stands for itself, by its name. */
const ownNames: Readonly<Record<string, string>> = new Proxy({}, { has: () => true, get: (_target, name) => `{${String(name)}}` })

function waysOf(name: string, node: StateNode): readonly ShownWay[] {
  return [...node.transitions.values()].flatMap((ways) =>
    ways.map((way, place) => ({
      event: way.eventType as FlowEvent['type'],
      when: way.guard === undefined ? (place === 0 ? '' : 'otherwise') : sayTest(testOf(way.guard)),
      to: way.target?.[0]?.key ?? name,
      actions: way.actions.map((action) => (typeof action === 'string' ? action : String((action as { readonly type: unknown }).type))),
    })),
  )
}

function notesOf(flow: Flow, name: string, initial: string): readonly string[] {
  const { enteredAt } = flow.machine.root.meta as { readonly enteredAt: readonly string[] }
  return [
    ...(name === initial ? ['begins here'] : []),
    ...(name !== initial && enteredAt.slice(0, -1).includes(name) ? ['may begin here'] : []),
    ...(name !== initial && name === flow.safeState ? ['safe state'] : []),
  ]
}

/** The comment above the flow, without the list of facts it reads. */
function purposeOf(id: string): string {
  const source = readFileSync(new URL(`../../flows/${id}.ts`, import.meta.url), 'utf8')
  const comment = /\/\*\*((?:(?!\*\/)[^])*)\*\/\s*export const \w+ = defineFlow\(/.exec(source)?.[1]
  if (comment === undefined) throw new Error(`flows/${id}.ts: say above the flow what it is for (/** … */).`)
  return comment.replaceAll(/\n\s*\*/g, ' ').replaceAll(/\s+/g, ' ').replace(/ Facts?(?: \([^)]*\))?: .*$/, '').replaceAll(/`([^`]*)`/g, '“$1”').trim()
}
