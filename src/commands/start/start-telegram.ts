// A clinic over Telegram, by long polling, on the embedded store.
import { createApp, createProduct, createTelegram, issueClaim, openStore, realWait, systemClock } from '#src/app.ts'
import type { Config } from '#src/config.ts'
import type { Instant } from '#src/domain/identifier.ts'
import { mayTakeIn } from '#src/domain/signature.ts'
import type { Log } from '#src/ports/log.ts'
import { describeSignature, howToSign } from '../describe-signature.ts'
import { keepRunningState, type RunningState } from '../status/running-state.ts'
import type { Started } from './started.ts'

export async function startTelegram(
  config: Config & { readonly telegram: NonNullable<Config['telegram']> },
  log: Log,
  failed: (error: Error) => void,
): Promise<Started> {
  const product = createProduct({ dataDir: config.dataDir }, config.clinicLanguage)
  const { signature, triage } = product.content
  const store = openStore(config)
  await store.open()
  const line: { heardAt: Instant | null } = { heardAt: null }
  const telegram = createTelegram(config.telegram, log, () => {
    line.heardAt = systemClock.now()
  })
  const app = createApp({ product, store, channels: [telegram], clock: systemClock, log })
  try {
    const code = await issueClaim(store, app.delivery)
    await app.start(failed)
    const claim = code === null ? [] : [`This clinic has no therapist yet. Whoever sends the bot this code first becomes its first therapist: ${code}`]
    const gate = mayTakeIn(signature)
      ? []
      : [`${describeSignature(signature, triage.version)} Nobody new can be enrolled or join; whoever has joined goes on. ${howToSign(triage.version)}`]
    const heard = (): RunningState['heard'] => [{ channel: telegram.name, at: line.heardAt }]
    const state = keepRunningState({ folder: config.dataDir, delivery: app.delivery, clock: systemClock, wait: realWait, log, heard })
    return {
      lines: ['Nuchal is listening to Telegram. Stop it with Ctrl+C.', ...gate, ...claim],
      async stop() {
        await app.stop()
        await store.close()
        // Behind the store, which writes only now what has gone out.
        await state.stop()
      },
    }
  } catch (error) {
    await app.stop().catch(() => undefined)
    await store.close()
    throw error
  }
}
