import { createActor, type AnyActorRef, type AnyActorScope, type AnyStateMachine } from 'xstate'
import type { Conversation, Facts, Flow, FlowAction, FlowEvent, StateMeta } from './flow.ts'

/** Where an event led. */
export interface Advance {
  readonly state: string
  readonly actions: readonly FlowAction[]
  readonly isDone: boolean
}

/**
 * One pure transition. Null where the state does not take the event: XState would pass over it in silence, and the caller
 * has to say something to the person.
 */
export function runFlow(flow: Flow, conversation: Conversation, facts: Facts, event: FlowEvent): Advance | null {
  const snapshot = flow.machine.resolveState({ value: conversation.state, context: facts })
  if (!snapshot.can(event)) return null
  const actions: FlowAction[] = []
  const next = flow.machine.transition(snapshot, event, scopeOf(flow.machine, actions))
  return { state: String(next.value), actions, isDone: next.status === 'done' }
}

/**
 * XState's own `transition` makes an actor for every call, which costs more than the transition itself. This is its body
 * with one actor a machine, never started, that only lends its name: a transition neither reads nor changes it.
 */
const actors = new WeakMap<AnyStateMachine, AnyActorRef>()

function scopeOf(machine: AnyStateMachine, actions: FlowAction[]): AnyActorScope {
  const self = actors.get(machine) ?? createActor(machine)
  actors.set(machine, self)
  return {
    self,
    system: self.system,
    id: '',
    sessionId: '',
    logger: ignore,
    defer: ignore,
    stopChild: ignore,
    emit: ignore,
    // XState's actions carry the live system and cannot be stored; only what is data in them is taken.
    actionExecutor: ({ type, params }) => void actions.push({ type, params: (params ?? {}) as FlowAction['params'] }),
  }
}

function ignore(): void {
  // Flows send, spawn and log nothing (`defineFlow`).
}

/** What a state asks or does; null for a final state. */
export function metaOf(flow: Flow, state: string): StateMeta | null {
  const node = flow.machine.states[state]
  if (node === undefined || node.type === 'final') return null
  return (node.meta ?? null) as StateMeta | null
}

/**
 * A stored conversation brought to the flow as it is today: migrated by version, and to the flow's safe state where its
 * state is gone. Its data, the answers, stay.
 */
export function resume(flow: Flow, conversation: Conversation): { readonly conversation: Conversation; readonly isMoved: boolean } {
  const isOfToday = conversation.version === flow.version
  if (isOfToday && isKnown(flow, conversation.state)) return { conversation, isMoved: false }
  const migrated = isOfToday ? null : flow.migrate(conversation.version, conversation.state)
  const state = isKnown(flow, migrated) ? migrated : flow.safeState
  const data = isOfToday ? conversation.data : flow.migrateData(conversation.version, conversation.data)
  return { conversation: { ...conversation, version: flow.version, state, data }, isMoved: state !== conversation.state }
}

function isKnown(flow: Flow, state: string | null): state is string {
  return state !== null && metaOf(flow, state) !== null
}
