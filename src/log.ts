import { pino } from 'pino'
import type { Log } from '#src/ports/log.ts'
import type { Config } from './config.ts'

/** Structured lines on standard error, so that standard output stays for what a command prints. */
export function createLog(level: Config['logLevel']): Log {
  const logger = pino({ level, base: null, timestamp: pino.stdTimeFunctions.isoTime }, pino.destination({ fd: 2, sync: true }))
  return {
    info: (event, fields) => logger.info(fields, event),
    warn: (event, fields) => logger.warn(fields, event),
    error: (event, fields) => logger.error(fields, event),
  }
}
