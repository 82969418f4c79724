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
  /**
   * Brings a state of an older version to this one: itself, the question that it has become, or the nearest safe question,
   * such as one that has been added before it; null where there is none, which leads to `safeState`.
   */
  readonly migrate: (version: number, state: string) => string | null
  /** Brings what an older version has gathered under the names of this one. What nobody reads any more stays under its own. */
  readonly migrateData: (version: number, data: Conversation['data']) => Conversation['data']
  /** Names it had before. Its stored conversations go on under the present one, and its versions are counted on. */
  readonly formerly: readonly string[]
}

export type Flows = ReadonlyMap<string, Flow>

/** A conversation under way, as stored. `data` holds what it has gathered so far. */
export interface Conversation {
  readonly flow: string
  readonly version: number
  readonly state: string
  readonly data: Readonly<Record<string, Answer>>
}
