/** What may be logged of this channel: no token, no text, no chat. */
export interface TelegramNote {
  readonly event: 'call-failed' | 'update-failed' | 'update-parked' | 'receiving-ended' | 'webhook-removed' | 'webhook-replaced' | 'webhook-unreached'
  /** The API method, where one was called. */
  readonly method?: string
  /** The Bot API's code, or that of the error thrown; `network` when no answer came, `none` where nothing failed here. */
  readonly code: string
  readonly updateId?: number
}

export type TelegramLog = (note: TelegramNote) => void
