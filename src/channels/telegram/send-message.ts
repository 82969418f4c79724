import type { InlineKeyboardMarkup } from 'grammy/types'
import type { Button, Contact, Message } from '#src/domain/message.ts'
import type { SendResult } from '#src/ports/channel.ts'
import { readFailure } from './api-failure.ts'
import type { ApiFailure } from './api-failure.ts'
import type { Connection } from './connection.ts'
import { describeFailure } from './describe-failure.ts'
import { splitText } from './split-text.ts'
import type { TelegramLog } from './telegram-note.ts'
import type { Wait } from './wait-for.ts'

/** Our choice, where the server names no time; the caller lets it grow. */
const laterMs = 2_000
const laterAtLimitMs = 5_000
/** A refused token is mended by a person. */
const laterUntilMendedMs = 60_000
/** How often a later part of a split text is tried before the whole is given back. */
const triesPerPart = 5

export interface SendOptions {
  readonly connection: Connection
  readonly wait: Wait
  readonly log: TelegramLog
  /** Ends the waits between tries; null while nothing is received. */
  readonly stopping: AbortSignal | null
}

export async function sendMessage(to: Contact, message: Message, options: SendOptions): Promise<SendResult> {
  const chatId = readChatId(to)
  if (chatId === null) return { kind: 'refused', code: 'address' }
  const parts = splitText(message.text)
  const keyboard = toKeyboard(message.buttons)
  let result: SendResult = { kind: 'refused', code: 'empty' }
  for (const [index, text] of parts.entries()) {
    const isLast = index === parts.length - 1
    const send = () => sendPart(chatId, text, isLast ? keyboard : null, options)
    // Once a part is out, sending the whole again would repeat it, so the rest is seen through here.
    result = index === 0 ? await send() : await seeThrough(send, options)
    if (result.kind !== 'sent') return result
  }
  return result
}

async function seeThrough(send: () => Promise<SendResult>, { wait, stopping }: SendOptions): Promise<SendResult> {
  let result = await send()
  for (let tries = 1; result.kind === 'later' && tries < triesPerPart && stopping?.aborted !== true; tries += 1) {
    await wait(result.afterMs, stopping ?? undefined)
    result = await send()
  }
  return result
}

async function sendPart(
  chatId: number,
  text: string,
  keyboard: InlineKeyboardMarkup | null,
  { connection, log }: SendOptions,
): Promise<SendResult> {
  // No parse mode: whatever a person wrote comes back as it was. No preview: it would fetch the link.
  const other = {
    link_preview_options: { is_disabled: true },
    ...(keyboard === null ? {} : { reply_markup: keyboard }),
  }
  try {
    const sent = await connection.call((api, signal) => api.sendMessage(chatId, text, other, signal))
    return { kind: 'sent', ref: `${sent.chat.id}:${sent.message_id}` }
  } catch (error) {
    return toResult(error, log)
  }
}

/** What the caller is told of a failed call; throws what is a mistake of ours. */
export function toResult(error: unknown, log: TelegramLog): SendResult {
  const failure = readFailure(error)
  if (failure === null) throw error
  log({ event: 'call-failed', ...describeFailure(error) })
  return judge(failure)
}

function judge({ code, reason, retryAfterMs }: ApiFailure): SendResult {
  if (code === null || code >= 500) return { kind: 'later', afterMs: retryAfterMs ?? laterMs }
  if (code === 429) return { kind: 'later', afterMs: retryAfterMs ?? laterAtLimitMs }
  if (code === 401 || code === 404) return { kind: 'later', afterMs: laterUntilMendedMs }
  if (code === 403 || reason === 'chat-not-found') return { kind: 'unreachable' }
  return { kind: 'refused', code: String(code) }
}

/** Addresses are chat ids; a public name, which the API would take as well, is never one of ours. */
export function readChatId(contact: Contact): number | null {
  return /^-?\d{1,16}$/.test(contact.address) ? Number(contact.address) : null
}

function toKeyboard(rows: readonly (readonly Button[])[]): InlineKeyboardMarkup | null {
  const filled = rows.filter((row) => row.length > 0)
  if (filled.length === 0) return null
  return { inline_keyboard: filled.map((row) => row.map(({ label, data }) => ({ text: label, callback_data: data }))) }
}
