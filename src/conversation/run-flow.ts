import { transition } from 'xstate'
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
  const [next, actions] = transition(flow.machine, snapshot, event)
  return {
    state: String(next.value),
    // XState's own actions carry the live system and cannot be stored; only ours, which are data, are taken.
    actions: actions.map((action) => ({ type: action.type, params: (action.params ?? {}) as FlowAction['params'] })),
    isDone: next.status === 'done',
  }
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
  const isKnown = (state: string | null): state is string => state !== null && metaOf(flow, state) !== null
  if (conversation.version === flow.version && isKnown(conversation.state)) return { conversation, isMoved: false }
  const migrated = conversation.version === flow.version ? null : flow.migrate(conversation.version, conversation.state)
  const state = isKnown(migrated) ? migrated : flow.safeState
  return { conversation: { ...conversation, version: flow.version, state }, isMoved: state !== conversation.state }
}
