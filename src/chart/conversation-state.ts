import type { Conversation } from '#src/conversation/flow.ts'
import type { EffectId, Instant } from '#src/domain/identifier.ts'

/** The question that is open, by its number; a press of any other number is outdated. */
export interface OpenPrompt {
  readonly number: number
  /** The message that shows it. */
  readonly effect: EffectId
  readonly text: string
  readonly askedAt: Instant
}

/** What a document keeps of its conversations: a stack, of which only the top speaks. */
export interface ConversationState {
  readonly conversations: readonly Conversation[]
  readonly prompt: OpenPrompt | null
  /** Prompts asked so far; the next one's number. */
  readonly promptsAsked: number
}

export const noConversation: ConversationState = { conversations: [], prompt: null, promptsAsked: 0 }
