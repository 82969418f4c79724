import { readFailure, toFatal } from './api-failure.ts'
import { describeFailure } from './describe-failure.ts'
import type { TelegramLog } from './telegram-note.ts'

/** False if the server could not be asked. Rejects with a ChannelError where asking again is no use. */
export async function greetOnce(greet: () => Promise<void>, log: TelegramLog): Promise<boolean> {
  try {
    await greet()
    return true
  } catch (error) {
    const failure = readFailure(error)
    if (failure === null) throw error
    const fatal = toFatal(failure)
    if (fatal !== null) throw fatal
    log({ event: 'call-failed', ...describeFailure(error) })
    return false
  }
}
