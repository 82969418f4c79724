// A clinic over Telegram, by long polling or webhook, on the embedded store.
import { telegramName } from '#src/channels/telegram/read-update.ts'
import { createApp, createProduct, createTelegram, issueClaim, openStore, realWait, systemClock } from '#src/app.ts'
import type { Config } from '#src/config.ts'
import { mayTakeIn } from '#src/domain/signature.ts'
import type { Log } from '#src/ports/log.ts'
import { describeSignature, howToSign } from '../describe-signature.ts'
import { keepRunningState, lastHeardIn, readRunningState, type RunningState } from '../status/running-state.ts'
import { createHearing, type Hearing } from './hearing.ts'
import { openListener, type Listener } from './open-listener.ts'
import type { Started } from './started.ts'
import { createWatch } from './watch/watch.ts'

export async function startTelegram(
  config: Config & { readonly telegram: NonNullable<Config['telegram']> },
  log: Log,
  failed: (error: Error) => void,
): Promise<Started> {
  const product = createProduct({ dataDir: config.dataDir }, config.clinicLanguage)
  const { signature, triage } = product.content
  const late: { hearing: Hearing | null } = { hearing: null }
  const heard = (): RunningState['heard'] => [{ channel: telegramName, at: late.hearing?.at() ?? null }]
  const watch = createWatch({
    store: openStore(config, log),
    clock: systemClock,
    machineClock: systemClock,
    wait: realWait,
    nowMs: () => performance.now(),
    heard,
    host: config.host,
    secret: config.accessSecret,
  })
  const { store } = watch
  await store.open()
  const telegram = createTelegram(config.telegram, log, {
    onHeard: () => late.hearing?.heard(),
    onCaughtUp: () => late.hearing?.caughtUp(),
    onParked: watch.noteParked,
  })
  const app = createApp({ product, store, channels: [watch.meter(telegram)], clock: systemClock, log, onParked: watch.noteParked, isDeaf: () => late.hearing?.isDeaf() ?? false })
  // Another process at work has heard what this one could not.
  const isAlone = store.wakeUps === null || store.wakeUps.share() === 1
  const lastHeardAt = isAlone ? lastHeardIn(await readRunningState(config.dataDir), telegram.name) : systemClock.now()
  const hearing = createHearing({ channel: telegram.name, lastHeardAt, store, delivery: app.delivery, clock: systemClock, wait: realWait, log })
  late.hearing = hearing
  let listener: Listener | null = null
  try {
    // Before Telegram is told where to bring its updates.
    listener = await openListener({ host: config.host, port: config.port, routes: [...telegram.routes, ...watch.routes], log, failed })
    const code = await issueClaim(store, app.delivery)
    await app.start(failed)
    watch.began(app.delivery)
    const claim = code === null ? [] : [`This clinic has no therapist yet. Whoever sends the bot this code first becomes its first therapist: ${code}`]
    const gate = mayTakeIn(signature)
      ? []
      : [`${describeSignature(signature, triage.version)} Nobody new can be enrolled or join; whoever has joined goes on. ${howToSign(triage.version)}`]
    const state = keepRunningState({ folder: config.dataDir, delivery: app.delivery, clock: systemClock, wait: realWait, log, heard })
    return {
      lines: [
        `Nuchal is listening to Telegram${config.telegram.webhook === null ? '' : ' by webhook'}. Stop it with Ctrl+C.`,
        `How it stands: ${listener.address}/healthz, and /metrics beside it.`,
        ...gate,
        ...claim,
      ],
      async stop() {
        watch.stopping()
        await hearing.stop()
        await app.stop()
        // Behind the app, so that who brings something meanwhile is told to come again.
        await listener?.close()
        await store.close()
        // Behind the store, which writes only now what has gone out.
        await state.stop()
      },
    }
  } catch (error) {
    await hearing.stop()
    await app.stop().catch(() => undefined)
    await listener?.close()
    await store.close()
    throw error
  }
}
