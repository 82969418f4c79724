import { Bot } from 'grammy'
import type { Api } from 'grammy'
import type { Wait } from './wait-for.ts'

/** grammY's own limit is 500 s, during which a dead line would look like a quiet one. */
const callLimitMs = 60_000

/** Without a reason of its own every abort would make an error with a stack, also of what is aborted already: three times an answer. */
const answered = 'answered'

export interface CallLimit {
  readonly limitMs?: number
  /** Ends the call early. */
  readonly signal?: AbortSignal
}

export interface Connection {
  readonly bot: Bot
  /** One API call, aborted when it takes too long. */
  call<T>(request: (api: Api, signal: ApiSignal) => Promise<T>, limit?: CallLimit): Promise<T>
}

/** grammY is typed with the signal of a polyfill, the native one passes at run time. */
export type ApiSignal = NonNullable<Parameters<Api['getMe']>[0]>

interface ConnectionOptions {
  readonly token: string
  readonly apiRoot: string
  readonly wait: Wait
}

export function createConnection({ token, apiRoot, wait }: ConnectionOptions): Connection {
  // grammY refuses a root that ends in a slash.
  const bot = new Bot(token, { client: { apiRoot: apiRoot.replace(/\/+$/, '') } })
  return {
    bot,
    async call(request, { limitMs = callLimitMs, signal } = {}) {
      // One for the request and for the wait beside it: whichever ends first ends the other.
      const over = new AbortController()
      const abort = (): void => {
        if (!over.signal.aborted) over.abort()
      }
      signal?.addEventListener('abort', abort)
      if (signal?.aborted) abort()
      void wait(limitMs, over.signal).then(abort)
      try {
        return await request(bot.api, over.signal as unknown as ApiSignal)
      } finally {
        over.abort(answered)
        signal?.removeEventListener('abort', abort)
      }
    },
  }
}
