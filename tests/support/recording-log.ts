import type { Log, LogFields } from '#src/ports/log.ts'

export interface LogLine {
  readonly level: 'info' | 'warn' | 'error'
  readonly event: string
  readonly fields: LogFields
}

export class RecordingLog implements Log {
  readonly lines: LogLine[] = []

  events(): readonly string[] {
    return this.lines.map(({ event }) => event)
  }

  info(event: string, fields: LogFields): void {
    this.lines.push({ level: 'info', event, fields })
  }

  warn(event: string, fields: LogFields): void {
    this.lines.push({ level: 'warn', event, fields })
  }

  error(event: string, fields: LogFields): void {
    this.lines.push({ level: 'error', event, fields })
  }
}
