// Decides: whether the open question may have been answered by a press that the network has dropped.
// Source: the Bot API server keeps presses for 150 s (github.com/tdlib/telegram-bot-api); how old a question may be is our choice.
import type { Instant } from '#src/domain/identifier.ts'
import { dayMs } from '#src/schedule/wall-time.ts'
import type { ConversationState } from './conversation-state.ts'

/** How long a press waits for us at the network, in ms. */
export const pressLivesMs = 150_000

/** Not of questions that had been open for a day before the silence: whoever has not answered by then gets no more of them. */
export function mayHaveLostAnswer({ prompt }: ConversationState, since: Instant, until: Instant): boolean {
  return prompt !== null && since - dayMs <= prompt.askedAt && prompt.askedAt < until - pressLivesMs
}
