/** What may be logged of this channel: no token, no text, no chat. */
export interface TelegramNote {
  readonly event: 'call-failed' | 'update-failed' | 'update-parked' | 'polling-ended'
  /** The API method, where one was called. */
  readonly method?: string
  /** The Bot API's code, or that of the error thrown; `network` when no answer came. */
  readonly code: string
  readonly updateId?: number
}

export type TelegramLog = (note: TelegramNote) => void
