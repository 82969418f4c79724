import { ChannelError } from '#src/ports/channel.ts'
import { readFailure } from './api-failure.ts'

/** The little of an error that may be logged; everything else in it may hold a token or a text. */
export function describeFailure(error: unknown): { code: string; method?: string } {
  const failure = readFailure(error)
  if (failure === null) return { code: codeOf(error) }
  const code = failure.code === null ? 'network' : String(failure.code)
  return failure.method === null ? { code } : { code, method: failure.method }
}

/** Why receiving ended, for whoever runs the process. Without a cause: an unknown error may hold anything. */
export function asChannelError(error: unknown): ChannelError {
  if (error instanceof ChannelError) return error
  const { code } = describeFailure(error)
  return new ChannelError('broken', `Receiving from Telegram broke off by our mistake (${code}). Start it again.`)
}

function codeOf(error: unknown): string {
  if (!(error instanceof Error)) return 'unknown'
  const code = 'code' in error && typeof error.code === 'string' ? error.code : error.name
  // Codes are short words; anything else might be a text.
  return /^[A-Za-z0-9_.-]{1,40}$/.test(code) ? code : 'unknown'
}
