// The messaging server's update queue with true offsets: https://core.telegram.org/bots/api#getupdates. How long it keeps what
// nobody has asked for: github.com/tdlib/telegram-bot-api.
import type { Update } from 'grammy/types'
import { brokenLine, error, ok, type Answer, type Payload } from './telegram-answers.ts'
import type { VirtualWait } from './virtual-wait.ts'

const pressLivesMs = 150_000
const messageLivesMs = 24 * 3_600_000

interface Kept {
  readonly update: Update
  /** When the server forgets it. */
  readonly until: number
}

export interface UpdateQueue {
  readonly pending: readonly Update[]
  /** Nobody asked for these while they were kept. */
  readonly forgotten: readonly Update[]
  push(news: readonly Update[]): void
  poll(payload: Payload): Promise<Answer>
  /** The line breaks; true where a poll was held. */
  breakOff(): boolean
}

export function createUpdateQueue(time: Pick<VirtualWait, 'now' | 'wait'>): UpdateQueue {
  const forgotten: Update[] = []
  const given = new Set<number>()
  let kept: readonly Kept[] = []
  let allowed: readonly string[] = []
  let held: { readonly answer: (answer: Answer | Promise<never>) => void; readonly over: AbortController } | null = null

  function isAllowed({ update }: Kept): boolean {
    return Object.keys(update).some((key) => allowed.includes(key))
  }

  function pending(): readonly Update[] {
    forgotten.push(...kept.filter(({ until, update }) => time.now() > until && !given.has(update.update_id)).map(({ update }) => update))
    kept = kept.filter(({ until }) => time.now() <= until)
    return kept.map(({ update }) => update)
  }

  function give(updates: readonly Update[]): Answer {
    for (const { update_id: id } of updates) given.add(id)
    return ok(updates)
  }

  function release(answer: Answer | Promise<never>): void {
    held?.answer(answer)
    held?.over.abort('answered')
    held = null
  }

  function forget(offset: number): void {
    const lastId = pending().at(-1)?.update_id ?? offset
    // An offset far in the future is none: the server answers from the head (tdlib `TQueue::get`, from memory).
    if (offset > lastId + 10) return
    kept = kept.filter(({ update }) => update.update_id >= offset)
  }

  return {
    get pending() {
      return pending()
    },
    forgotten,
    push(news) {
      kept = [...kept, ...news.map((update) => ({ update, until: time.now() + livesMs(update) }))]
      const seen = kept.filter(isAllowed)
      if (held !== null && seen.length > 0) release(give(seen.slice(0, 100).map(({ update }) => update)))
    },
    async poll(payload) {
      release(error(409, 'Conflict: terminated by other getUpdates request'))
      allowed = (payload.allowed_updates as string[] | undefined) ?? allowed
      if (typeof payload.offset === 'number') forget(payload.offset)
      kept = kept.filter(isAllowed)
      const batch = pending().slice(0, Number(payload.limit ?? 100))
      if (batch.length > 0 || payload.timeout === 0) return give(batch)
      return new Promise((resolve) => {
        const over = new AbortController()
        held = { answer: resolve, over }
        void time.wait(Number(payload.timeout) * 1000, over.signal).then(() => {
          if (!over.signal.aborted) release(ok([]))
        })
      })
    },
    breakOff() {
      if (held === null) return false
      release(brokenLine())
      return true
    },
  }
}

function livesMs(update: Update): number {
  return update.callback_query === undefined ? messageLivesMs : pressLivesMs
}
