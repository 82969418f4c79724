import { readConfig, type Config } from '#src/config.ts'
import { createLog } from '#src/log.ts'
import type { Surface } from '../surface.ts'
import { awaitStop } from './await-stop.ts'
import { startDemo } from './start-demo.ts'
import { startTelegram } from './start-telegram.ts'

/** Runs until a signal or until a channel cannot go on; gives back the exit status. */
export async function start({ environment, print, complain }: Surface): Promise<number> {
  const config = readConfig(environment)
  const log = createLog(config.logLevel)
  const end = createEnd()
  const stop = awaitStop({
    asked: () => end.resolve(null),
    cutShort(status) {
      log.warn('stop-cut-short', {})
      process.exit(status)
    },
  })
  try {
    const started = hasTelegram(config) ? await startTelegram(config, log, end.resolve) : await startDemo(config, log, end.resolve)
    for (const line of started.lines) print(line)
    const error = await end.reached
    if (error !== null) complain(error.message)
    await started.stop()
    return error === null ? 0 : 1
  } finally {
    stop.callOff()
  }
}

function hasTelegram(config: Config): config is Config & { readonly telegram: NonNullable<Config['telegram']> } {
  return config.telegram !== null
}

/** `Promise.withResolvers` is not in every Node that is served. */
function createEnd(): { readonly reached: Promise<Error | null>; readonly resolve: (error: Error | null) => void } {
  let resolve: (error: Error | null) => void = () => undefined
  const reached = new Promise<Error | null>((settle) => {
    resolve = settle
  })
  return { reached, resolve }
}
