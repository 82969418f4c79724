import { pino, type DestinationStream } from 'pino'
import type { Log } from '#src/ports/log.ts'
import type { Config } from './config.ts'
import { keepSafe, keepSafeEvent } from './log-fields.ts'

/** Structured lines on standard error, so that standard output stays for what a command prints. */
export function createLog(level: Config['logLevel'], destination: DestinationStream = pino.destination({ fd: 2, sync: true })): Log {
  const logger = pino({ level, base: null, timestamp: pino.stdTimeFunctions.isoTime, formatters: { log: keepSafe } }, destination)
  return {
    info: (event, fields) => logger.info(fields, keepSafeEvent(event)),
    warn: (event, fields) => logger.warn(fields, keepSafeEvent(event)),
    error: (event, fields) => logger.error(fields, keepSafeEvent(event)),
  }
}
