import type { AnyStateMachine } from 'xstate'
import type { Answer, Question } from './question.ts'

/** What moves a conversation on. `go` is sent by the shell of the step to a state that decides instead of asking. */
export type FlowEvent =
  | { readonly type: 'answer'; readonly value: Answer }
  | { readonly type: 'go' }
  | { readonly type: 'stop' }
  | { readonly type: 'not-today' }
  /** The question before, in flows that gather answers. */
  | { readonly type: 'back' }
  /** Closed from outside: local midnight, a lock, a later reminder. */
  | { readonly type: 'close' }

/** The facts a flow's guards read, worked out afresh from the document before every transition. */
export type Facts = Readonly<Record<string, unknown>>

/** What a state does: it asks, or it decides by the facts alone. */
export type StateMeta =
  | { readonly asks: Question; /** Prefix of the wording: `.ask`, `.example`, `.why`. */ readonly words: string }
  | { readonly decides: true }

/** A conversation's action, as data; the chart room holds one handler a type. */
export interface FlowAction {
  readonly type: string
  readonly params: Readonly<Record<string, unknown>>
}

/** One conversation. */
export interface Flow {
  readonly id: string
  readonly version: number
  readonly machine: AnyStateMachine
  /** Where a conversation goes that cannot be brought on otherwise. */
  readonly safeState: string
  /** Brings a state of an older version to this one; null where there is no such state any more. */
  readonly migrate: (version: number, state: string) => string | null
}

export type Flows = ReadonlyMap<string, Flow>

/** A conversation under way, as stored. `data` holds what it has gathered so far. */
export interface Conversation {
  readonly flow: string
  readonly version: number
  readonly state: string
  readonly data: Readonly<Record<string, Answer>>
}
