// A network keeps presses for minutes and messages for a day. When it has not been heard for longer, by a stop or by a broken
// line, what people sent may be lost: open questions are asked again, once, and after a day the operator and everybody are told.
// Source: github.com/tdlib/telegram-bot-api: presses are kept for 150 s, messages for 24 h.
import type { Event } from '#src/chart/event.ts'
import { pressLivesMs } from '#src/chart/lost-answer.ts'
import type { Delivery, Unsent } from '#src/delivery/delivery.ts'
import type { Wait } from '#src/delivery/wait.ts'
import { brandAs, type DocumentId, type EventId, type Instant } from '#src/domain/identifier.ts'
import type { Clock } from '#src/ports/clock.ts'
import type { Log } from '#src/ports/log.ts'
import { StoreError, type Store } from '#src/ports/store.ts'
import { dayMs, hourMs, minuteMs } from '#src/schedule/wall-time.ts'

export interface HearingParts {
  readonly channel: string
  /** When the process before this one last heard the network; null where that is not known. */
  readonly lastHeardAt: Instant | null
  readonly store: Pick<Store, 'heads' | 'owed'>
  readonly delivery: Pick<Delivery<Event>, 'submit' | 'tryAgain'>
  readonly clock: Clock
  readonly wait: Wait
  readonly log: Log
}

export interface Hearing {
  /** The network has answered. */
  heard(): void
  /** What it had kept for us until then is handled. */
  caughtUp(): void
  /** Whether it is not heard just now, or what it had kept is still being told of. */
  isDeaf(): boolean
  /** When it was last heard, for the next process: a silence of which nobody has been told yet has not ended. */
  at(): Instant | null
  /** Resolves when nothing of it is under way. */
  stop(): Promise<void>
}

interface Silence {
  readonly since: Instant
  readonly until: Instant
  /** What had not gone out when it ended. */
  readonly unsent: readonly Unsent[]
}

const messagesLiveMs = dayMs
/** Longer than any poll is open and than a webhook is left without a look. */
const deafAfterMs = 90_000
/** Our choice: how exactly a day is met does not matter, and timers stand still while a machine sleeps. */
const lookEveryMs = 10 * minuteMs
const askedAtOnce = 16

export function createHearing({ channel, lastHeardAt, store, delivery, clock, wait, log }: HearingParts): Hearing {
  const halt = new AbortController()
  const startedAt = clock.now()
  let heardAt = lastHeardAt
  let silence: Silence | null = null
  let asking: Promise<void> = Promise.resolve()
  let isAsking = false

  async function watch(): Promise<void> {
    let warnedOf: Instant | null = null
    while (!halt.signal.aborted) {
      const since = heardAt ?? startedAt
      const silentMs = clock.now() - since
      if (silentMs >= messagesLiveMs && warnedOf !== since) {
        warnedOf = since
        log.error('unheard-for-a-day', { channel, hours: Math.floor(silentMs / hourMs) })
      }
      await wait(lookEveryMs, halt.signal)
    }
  }

  async function ask({ since, until, unsent: waiting }: Silence): Promise<void> {
    const lost = until - since >= messagesLiveMs ? 'everything' : 'presses'
    log[lost === 'everything' ? 'error' : 'warn'](`${lost}-may-be-lost`, { channel, minutes: Math.floor((until - since) / minuteMs) })
    const documents = [...(await store.heads('desk')), ...(await store.heads('chart'))].map(({ id }) => id)
    const askInTurn = async (): Promise<void> => {
      for (let document = documents.shift(); document !== undefined && !halt.signal.aborted; document = documents.shift()) {
        const owed = (await store.owed(document)).map(({ effect }) => effect.id)
        const unsent = [...new Set([...owed, ...waiting.flatMap((one) => (one.document === document ? [one.effect] : []))])]
        await delivery.submit(document, { id: unheardId(document, since), kind: 'unheard', since, until, lost, unsent })
      }
    }
    await Promise.all(Array.from({ length: askedAtOnce }, askInTurn))
  }

  /** A silence that could not be told of in full is told of at the next poll; whoever was asked is not asked again. */
  async function tell(told: Silence): Promise<void> {
    isAsking = true
    try {
      await ask(told)
      if (silence === told && !halt.signal.aborted) silence = null
    } catch (error) {
      log.warn('unheard-not-told', { channel, code: error instanceof StoreError ? error.code : 'none' })
    } finally {
      isAsking = false
    }
  }

  function isDeaf(): boolean {
    return silence !== null || clock.now() - (heardAt ?? startedAt) > deafAfterMs
  }

  const watching = watch()
  return {
    heard() {
      const now = clock.now()
      // What went out in vain meanwhile does not wait for the end of its patience: an alert may be among it.
      const unsent = isDeaf() ? delivery.tryAgain(channel) : []
      if (heardAt !== null && now - heardAt > pressLivesMs) silence = { since: silence?.since ?? heardAt, until: now, unsent: [...(silence?.unsent ?? []), ...unsent] }
      heardAt = now
    },
    caughtUp() {
      if (silence !== null && !isAsking && !halt.signal.aborted) asking = tell(silence)
    },
    isDeaf,
    at: () => silence?.since ?? heardAt,
    async stop() {
      halt.abort()
      await Promise.all([watching, asking])
    },
  }
}

/** The same after a crash, so that nobody is asked twice for one silence. */
function unheardId(document: DocumentId, since: Instant): EventId {
  return brandAs<EventId>(`unheard:${document}:${since}`)
}
