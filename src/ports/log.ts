/** Counts, codes, names and document ids; never a text, an answer, an address, a network's event id or a token. */
export type LogFields = Readonly<Record<string, string | number | boolean>>

/** `event` is a fixed kebab-case word for what happened, so that a log can be searched by it. */
export interface Log {
  info(event: string, fields: LogFields): void
  warn(event: string, fields: LogFields): void
  error(event: string, fields: LogFields): void
}
