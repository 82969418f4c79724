import { openListener, type Listener } from '#src/commands/start/open-listener.ts'
import type { Webhook } from '#src/channels/telegram/webhook-route.ts'
import { bring, type Brought } from './bring-update.ts'
import { RecordingLog } from './recording-log.ts'
import { createTelegramRig, type TelegramRig } from './telegram-rig.ts'

export const hook: Webhook = { url: 'https://clinic.example/from-telegram', secret: 'secret-of-the-hook_0-9' }

/** The channel behind a real listener, with a virtual server on its other side. */
export interface WebhookRig {
  readonly rig: TelegramRig
  readonly log: RecordingLog
  readonly address: string
  /** As Telegram would, with its secret, or as somebody else might. */
  bring(body: unknown, options?: { readonly secret?: string | null; readonly path?: string; readonly method?: string }): Promise<Brought>
  close(): Promise<void>
}

export async function openWebhookRig(): Promise<WebhookRig> {
  const rig = createTelegramRig(hook)
  const log = new RecordingLog()
  const failed = (error: Error): never => {
    throw error
  }
  const listener: Listener = await openListener({ host: '127.0.0.1', port: 0, routes: rig.channel.routes, log, failed })
  return {
    rig,
    log,
    address: listener.address,
    bring: (body, { secret = hook.secret, path = '/from-telegram', method = 'POST' } = {}) => bring(`${listener.address}${path}`, body, secret, method),
    async close() {
      await rig.close()
      await listener.close()
    },
  }
}
