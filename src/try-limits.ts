// How often unknown chats are answered, and how often they may guess, in the memory of this process.
//
// Why not in the store: "an unknown chat leaves nothing" is a promise, and a durable write for every wrong guess would let
// strangers keep the disk and the clinic's one document busy. What it costs: a restart forgets the counts, and each process
// counts for itself. The limits leave room for both (docs/security.md works out the chance).
import type { Instant } from '#src/domain/identifier.ts'
import type { Contact } from '#src/domain/message.ts'

const hourMs = 3_600_000

/** Our choice: more than somebody with an old link and a typing error needs. */
export const wrongTriesAnHour = 5
/**
 * Our choice. 20 an hour are 175,320 a year; of the 2^40 codes that may claim a clinic that is one chance in six million, and
 * with six processes on one clinic still less than one in a million. An invitation has 192 bits and needs no limit.
 */
export const wrongTriesOverAllAnHour = 20
/** Our choice: whoever has no invitation has read by then how to get one. */
export const answersAnHour = 5
/** Our choice: a few megabytes at most. Whoever is forgotten for it still counts over all. */
const rememberedChats = 10_000

interface Chat {
  readonly wrongAt: readonly Instant[]
  readonly answeredAt: readonly Instant[]
}

/** `closed`: nothing of this chat is looked at. `slow`: so much was wrong over all that codes wait and nothing wrong is answered. */
export type Admittance = 'open' | 'slow' | 'closed'

export interface TryLimits {
  admittance(from: Contact, at: Instant): Admittance
  /** Counts a wrong code or invitation; `isLast` for this chat, `isOften` where it is the one that slows all down. */
  noteWrong(from: Contact, at: Instant): { readonly isLast: boolean; readonly isOften: boolean }
  /** Counts an answer to words that were no try; false once there have been enough. */
  mayAnswer(from: Contact, at: Instant): boolean
}

export function createTryLimits(): TryLimits {
  const chats = new Map<string, Chat>()
  let wrongOverAll: readonly Instant[] = []

  const chatOf = (from: Contact): Chat => chats.get(keyOf(from)) ?? { wrongAt: [], answeredAt: [] }

  function keep(from: Contact, chat: Chat): void {
    const key = keyOf(from)
    // Taken out first, so that the chat that was quiet the longest stands first and is forgotten first.
    chats.delete(key)
    chats.set(key, chat)
    const [oldest] = chats.keys()
    if (chats.size > rememberedChats && oldest !== undefined) chats.delete(oldest)
  }

  return {
    admittance(from, at) {
      const last = chatOf(from).wrongAt
      if (last.length >= wrongTriesAnHour && isWithinHour(last.at(-1), at)) return 'closed'
      return withinHour(wrongOverAll, at).length >= wrongTriesOverAllAnHour ? 'slow' : 'open'
    },
    noteWrong(from, at) {
      const chat = chatOf(from)
      const wrongAt = [...withinHour(chat.wrongAt, at), at]
      keep(from, { ...chat, wrongAt })
      const before = withinHour(wrongOverAll, at)
      wrongOverAll = [...before, at].slice(-wrongTriesOverAllAnHour)
      return { isLast: wrongAt.length >= wrongTriesAnHour, isOften: before.length === wrongTriesOverAllAnHour - 1 }
    },
    mayAnswer(from, at) {
      const chat = chatOf(from)
      const answeredAt = withinHour(chat.answeredAt, at)
      if (answeredAt.length >= answersAnHour) return false
      keep(from, { ...chat, answeredAt: [...answeredAt, at] })
      return true
    },
  }
}

function keyOf({ channel, address }: Contact): string {
  return `${channel}\n${address}`
}

/** A clock that was set back by more than an hour must not lock anybody out for longer. */
function isWithinHour(then: Instant | undefined, at: Instant): boolean {
  return then !== undefined && Math.abs(at - then) < hourMs
}

function withinHour(instants: readonly Instant[], at: Instant): readonly Instant[] {
  return instants.filter((then) => isWithinHour(then, at))
}
