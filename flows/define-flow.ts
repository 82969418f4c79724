import { createMachine } from 'xstate'
import type { Facts, Flow, FlowEvent, StateMeta } from '#src/conversation/flow.ts'
import type { Question } from '#src/conversation/question.ts'
import type { Guard } from './guards.ts'

/** An action as data; what it does to the document is the chart room's business. */
type Action = string | { readonly type: string; readonly params: Readonly<Record<string, unknown>> }

export interface Way {
  /** Left out where the conversation stays where it is. */
  readonly target?: string
  /** Made in `guards.ts`, so that a picture can say what it looks at. */
  readonly guard?: Guard
  readonly actions?: Action | readonly Action[]
}

export type Ways = string | Way | readonly Way[]

export interface FlowState {
  readonly meta?: StateMeta
  readonly type?: 'final'
  readonly on?: Partial<Record<FlowEvent['type'], Ways>>
}

export interface FlowDefinition {
  readonly id: string
  readonly version: number
  readonly initial: string
  readonly safeState: string
  /** Where else than at its beginning the flow is entered. */
  readonly enteredAt?: readonly string[]
  /** Ways out of every state. */
  readonly on?: Partial<Record<FlowEvent['type'], Ways>>
  readonly states: Readonly<Record<string, FlowState>>
  readonly migrate?: Flow['migrate']
  readonly migrateData?: Flow['migrateData']
  readonly formerly?: Flow['formerly']
}

/** A flow from its definition. Timers, invoked and spawned actors have no place here: time is the document's business. */
export function defineFlow(definition: FlowDefinition): Flow {
  const { id, version, initial, safeState, enteredAt = [], on, states } = definition
  const meta = { enteredAt: [...enteredAt, safeState] }
  const config: unknown = { id, initial, meta, on: atRoot(on), states, context: ({ input }: { input?: Facts }) => input ?? {} }
  return {
    id,
    version,
    safeState,
    machine: createMachine(config as Parameters<typeof createMachine>[0]),
    migrate: definition.migrate ?? (() => null),
    migrateData: definition.migrateData ?? ((_version, data) => data),
    formerly: definition.formerly ?? [],
  }
}

/** Targets of the root's transitions are written like all others, and read by XState with a leading dot. */
function atRoot(on: FlowDefinition['on']): Record<string, unknown> {
  const dotted = (way: Way): Way => (way.target === undefined ? way : { ...way, target: `.${way.target}` })
  const entries = Object.entries(on ?? {}).map(([type, ways]) => {
    const list = typeof ways === 'string' ? [{ target: ways }] : Array.isArray(ways) ? ways : [ways as Way]
    return [type, (list as readonly Way[]).map(dotted)] as const
  })
  return Object.fromEntries(entries)
}

/** A state that asks. */
export function ask(question: Question, words: string, on: FlowState['on'] = {}): FlowState {
  return { meta: { asks: question, words }, on }
}

/** A state that decides by the facts alone. */
export function decideBy(ways: Ways): FlowState {
  return { meta: { decides: true }, on: { go: ways } }
}

export const final: FlowState = { type: 'final' }
