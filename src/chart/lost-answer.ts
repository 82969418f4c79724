// Decides: whether the open question may have been answered by a press that the network has dropped.
// Source: the Bot API server keeps presses for 150 s (github.com/tdlib/telegram-bot-api); how old a question may be is our choice.
import type { EffectId, Instant } from '#src/domain/identifier.ts'
import { dayMs } from '#src/schedule/wall-time.ts'
import type { ConversationState, OpenPrompt } from './conversation-state.ts'
import type { EventOf } from './event.ts'

/** How long a press waits for us at the network, in ms. */
export const pressLivesMs = 150_000

/** Not of questions that had been open for a day before the silence: whoever has not answered by then gets no more of them. */
export function mayHaveLostAnswer({ prompt }: ConversationState, { since, until, unsent }: EventOf<'unheard'>): boolean {
  return prompt !== null && since - dayMs <= prompt.askedAt && !isStillNew(prompt, until, unsent)
}

/** A question that is only on its way, or whose press the network still keeps, has no answer that could be lost. */
export function isStillNew({ askedAt, effect }: OpenPrompt, at: Instant, unsent: readonly EffectId[] = []): boolean {
  return askedAt >= at - pressLivesMs || unsent.includes(effect)
}
