// Stands for Telegram before a real process: takes every call, keeps what was sent, and lets a poll wait.
import { createServer, type ServerResponse } from 'node:http'
import { once } from 'node:events'
import { onTestFinished } from 'vitest'
import { botUser } from './telegram-updates.ts'

export interface SmallBotApi {
  readonly root: string
  readonly calls: readonly { readonly method: string; readonly payload: Readonly<Record<string, unknown>> }[]
  /** Resolves once a call of the method has come that is like this. */
  called(method: string, isLike?: (payload: Readonly<Record<string, unknown>>) => boolean): Promise<void>
  /** From now on these methods get no answer. */
  silence(...methods: string[]): void
}

export async function openSmallBotApi(token: string): Promise<SmallBotApi> {
  const calls: { method: string; payload: Record<string, unknown> }[] = []
  const silent = new Set<string>()
  const waiting = new Set<() => void>()
  let messageId = 0
  const results: Readonly<Record<string, (payload: Record<string, unknown>) => unknown>> = {
    getMe: () => ({ ...botUser, can_join_groups: false, can_read_all_group_messages: false }),
    getWebhookInfo: () => ({ url: '', has_custom_certificate: false, pending_update_count: 0 }),
    sendMessage: ({ chat_id: chat, text }) => ({ message_id: (messageId += 1), date: 1, chat: { id: chat, type: 'private' }, text }),
    setWebhook: () => true,
    answerCallbackQuery: () => true,
    editMessageText: () => true,
  }
  const server = createServer((request, response) => {
    let body = ''
    request.on('data', (piece) => (body += String(piece)))
    request.on('end', () => take(request.url ?? '', body, response))
  })
  function take(url: string, body: string, response: ServerResponse): void {
    const [, bot, method = ''] = url.split('/')
    const payload = body === '' ? {} : (JSON.parse(body) as Record<string, unknown>)
    calls.push({ method, payload })
    for (const look of [...waiting]) look()
    const result = results[method]
    // A poll is left open until the other side ends it.
    if (silent.has(method) || (method === 'getUpdates' && payload.timeout !== 0)) return
    const isKnown = bot === `bot${token}`
    const answer = isKnown ? { ok: true, result: method === 'getUpdates' ? [] : result?.(payload) } : { ok: false, error_code: 401, description: 'Unauthorized' }
    response.writeHead(isKnown ? 200 : 401, { 'Content-Type': 'application/json' }).end(JSON.stringify(answer))
  }
  server.listen(0, '127.0.0.1')
  await once(server, 'listening')
  onTestFinished(() => {
    server.closeAllConnections()
    server.close()
  })
  return {
    root: `http://127.0.0.1:${(server.address() as { port: number }).port}`,
    calls,
    called: (method, isLike = () => true) =>
      new Promise((resolve) => {
        const look = (): void => {
          if (!calls.some((call) => call.method === method && isLike(call.payload))) return
          waiting.delete(look)
          resolve()
        }
        waiting.add(look)
        look()
      }),
    silence: (...methods) => methods.forEach((method) => silent.add(method)),
  }
}
