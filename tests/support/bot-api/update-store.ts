// Updates that the server keeps until they are confirmed, taken by a webhook, or too old.
import type { Update } from 'grammy/types'
import type { Instant } from '#src/domain/identifier.ts'

/** https://core.telegram.org/bots/api#getting-updates: "not longer than 24 hours". */
export const updateLivesMs = 24 * 3_600_000
/** From tdlib/telegram-bot-api, and not published otherwise: a press lives for 150 s. */
export const pressLivesMs = 150_000

/** Not sent unless asked for: https://core.telegram.org/bots/api#getupdates, `allowed_updates`. */
const notByDefault: ReadonlySet<string> = new Set(['chat_member', 'message_reaction', 'message_reaction_count'])

export interface Kept {
  readonly update: Update
  readonly arrivedAt: Instant
}

export interface UpdateStore {
  /** What lives at that instant, oldest first; what is older is dropped for good. */
  pending(at: Instant): readonly Kept[]
  /** Says nothing of updates that were there before: https://core.telegram.org/bots/api#getupdates. */
  allow(kinds: readonly string[]): void
  readonly allowed: readonly string[] | null
  /** False where updates of that kind are not asked for. */
  add(update: Update, at: Instant): boolean
  /** Forgets everything below the offset; a negative one keeps so many from the end. */
  confirm(offset: number): void
  remove(update: Update): void
  clear(): void
  /** What was dropped because nobody fetched it in time. */
  readonly dropped: readonly Update[]
}

export function createUpdateStore(): UpdateStore {
  let kept: readonly Kept[] = []
  let allowed: readonly string[] | null = null
  const dropped: Update[] = []
  const isAllowed = (kind: string): boolean => (allowed === null || allowed.length === 0 ? !notByDefault.has(kind) : allowed.includes(kind))
  return {
    dropped,
    get allowed() {
      return allowed
    },
    pending(at) {
      const lives = ({ update, arrivedAt }: Kept): boolean => at - arrivedAt <= (update.callback_query === undefined ? updateLivesMs : pressLivesMs)
      dropped.push(...kept.filter((one) => !lives(one)).map(({ update }) => update))
      kept = kept.filter(lives)
      return kept
    },
    allow(kinds) {
      allowed = kinds
    },
    add(update, at) {
      if (!Object.keys(update).some((key) => key !== 'update_id' && isAllowed(key))) return false
      kept = [...kept, { update, arrivedAt: at }]
      return true
    },
    confirm(offset) {
      if (offset < 0) {
        kept = kept.slice(offset)
        return
      }
      const lastId = kept.at(-1)?.update.update_id ?? offset
      // An offset far in the future is none: the server answers from the head (tdlib `TQueue::get`, from memory).
      if (offset > lastId + 10) return
      kept = kept.filter(({ update }) => update.update_id >= offset)
    },
    remove(update) {
      kept = kept.filter((one) => one.update !== update)
    },
    clear() {
      kept = []
    },
  }
}
