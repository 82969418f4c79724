// A clinic over Telegram, by long polling, on the embedded store.
import { createApp, createProduct, createTelegram, issueClaim, openStore, systemClock } from '#src/app.ts'
import type { Config } from '#src/config.ts'
import type { Log } from '#src/ports/log.ts'
import type { Started } from './started.ts'

export async function startTelegram(
  config: Config & { readonly telegram: NonNullable<Config['telegram']> },
  log: Log,
  failed: (error: Error) => void,
): Promise<Started> {
  const product = createProduct()
  const store = openStore(config)
  await store.open()
  const app = createApp({ product, store, channels: [createTelegram(config.telegram, log)], clock: systemClock, log })
  try {
    const code = await issueClaim(store, app.delivery)
    await app.start(failed)
    const claim = code === null ? [] : [`This clinic has no therapist yet. Whoever sends the bot this code first becomes its first therapist: ${code}`]
    return {
      lines: ['Nuchal is listening to Telegram. Stop it with Ctrl+C.', ...claim],
      async stop() {
        await app.stop()
        await store.close()
      },
    }
  } catch (error) {
    await app.stop().catch(() => undefined)
    await store.close()
    throw error
  }
}
