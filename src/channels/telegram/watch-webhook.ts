import type { WebhookInfo } from 'grammy/types'
import type { PollingOptions } from './poll-updates.ts'
import { keepTrying } from './poll-updates.ts'
import { setWebhook } from './set-webhook.ts'
import type { TelegramNote } from './telegram-note.ts'
import type { Webhook } from './webhook-route.ts'

/** Our choice: on a quiet day nothing comes, and a line that broke must not look like one. */
const everyMs = 60_000

export interface WebhookWatchOptions extends Omit<PollingOptions, 'intake'> {
  readonly webhook: Webhook
  /** Whether an update was brought since this was last asked. */
  readonly hasCome: () => boolean
}

/**
 * Asks the server now and then whether it still knows us, until the stop. One that was taken away is set again; one that
 * somebody has set to another address is left, or two clinics would fight for it, but counts as not heard.
 * Rejects with a ChannelError when the server will not have us.
 */
export async function watchWebhook(options: WebhookWatchOptions): Promise<void> {
  const { connection, hasCome, log, onCaughtUp, onHeard, stopping, wait, webhook } = options
  while (!stopping.aborted) {
    await wait(everyMs, stopping)
    const info = await keepTrying(() => connection.call((api, signal) => api.getWebhookInfo(signal), { signal: stopping }), options)
    if (info === null) return
    const trouble = findTrouble(info, webhook.url, hasCome())
    if (trouble === null) onHeard()
    else log({ event: trouble, code: 'none' })
    if (trouble === null && info.pending_update_count === 0) onCaughtUp()
    if (trouble === 'webhook-removed') await keepTrying(() => setWebhook(connection, webhook, stopping), options)
  }
}

/** The server names its last failure for good, so that only one while updates wait and none comes means a broken line. */
function findTrouble(info: WebhookInfo, ownUrl: string, hasCome: boolean): TelegramNote['event'] | null {
  if (info.url === undefined || info.url === '') return 'webhook-removed'
  if (info.url !== ownUrl) return 'webhook-replaced'
  const isFailing = info.last_error_date !== undefined && info.pending_update_count > 0
  return isFailing && !hasCome ? 'webhook-unreached' : null
}
