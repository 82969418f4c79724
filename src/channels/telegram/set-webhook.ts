import { ChannelError } from '#src/ports/channel.ts'
import { readFailure } from './api-failure.ts'
import type { Connection } from './connection.ts'
import { handledKinds } from './read-update.ts'
import type { Webhook } from './webhook-route.ts'

/** The server's own default, https://core.telegram.org/bots/api#setwebhook; as many chats are served at once. */
const mostConnections = 40

/** Says where updates are to be brought. What waits at the server is kept. Rejects with a ChannelError if the address is refused. */
export async function setWebhook({ call }: Connection, { url, secret }: Webhook, signal: AbortSignal): Promise<void> {
  const request = { secret_token: secret, max_connections: mostConnections, allowed_updates: handledKinds }
  try {
    await call((api, callSignal) => api.setWebhook(url, request, callSignal), { signal })
  } catch (error) {
    if (readFailure(error)?.code !== 400) throw error
    // Without a cause: the library's error holds the secret.
    throw new ChannelError(
      'webhook-refused',
      'Telegram refused the address in TELEGRAM_WEBHOOK_URL. It must be https on port 443, 80, 88 or 8443 of a host that Telegram can reach.',
    )
  }
}
