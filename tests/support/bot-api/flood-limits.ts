// How many messages the server takes: https://core.telegram.org/bots/faq#my-bot-is-hitting-limits-how-do-i-avoid-this names
// about one a second to a chat, with short bursts, and about thirty a second in all. How they are counted is not published;
// a token bucket is our choice.
import type { Instant } from '#src/domain/identifier.ts'
import { Refused } from './answer.ts'

export interface FloodLimits {
  readonly overallPerSecond: number
  readonly chatPerSecond: number
  /** So many to one chat may come at once. */
  readonly chatBurst: number
  /** What a refusal asks for, in seconds; null: the time until the bucket holds one again. */
  readonly retryAfterSeconds: number | null
}

export const publishedLimits: FloodLimits = { overallPerSecond: 30, chatPerSecond: 1, chatBurst: 5, retryAfterSeconds: null }

interface Bucket {
  tokens: number
  at: Instant
}

export interface FloodGate {
  /** Throws {@link Refused} with 429 where the limit is met; a refused message costs nothing. */
  pass(chat: number, at: Instant): void
}

export function createFloodGate(limits: FloodLimits | null): FloodGate {
  if (limits === null) return { pass: () => undefined }
  const { overallPerSecond, chatPerSecond, chatBurst, retryAfterSeconds } = limits
  const overall: Bucket = { tokens: overallPerSecond, at: 0 }
  const chats = new Map<number, Bucket>()
  return {
    pass(chat, at) {
      const own = chats.get(chat) ?? { tokens: chatBurst, at }
      chats.set(chat, own)
      refill(own, chatPerSecond, chatBurst, at)
      refill(overall, overallPerSecond, overallPerSecond, at)
      const waitSeconds = Math.max(missing(own, chatPerSecond), missing(overall, overallPerSecond))
      if (waitSeconds > 0) {
        const seconds = retryAfterSeconds ?? Math.max(1, Math.ceil(waitSeconds))
        throw new Refused(429, `Too Many Requests: retry after ${seconds}`, { retry_after: seconds })
      }
      own.tokens -= 1
      overall.tokens -= 1
    },
  }
}

function refill(bucket: Bucket, perSecond: number, most: number, at: Instant): void {
  bucket.tokens = Math.min(most, bucket.tokens + (Math.max(0, at - bucket.at) / 1000) * perSecond)
  bucket.at = at
}

/** In seconds; rounding must not refuse what comes exactly in time. */
function missing({ tokens }: Bucket, perSecond: number): number {
  return tokens > 1 - 1e-9 ? 0 : (1 - tokens) / perSecond
}
