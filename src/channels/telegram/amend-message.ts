import type { Contact } from '#src/domain/message.ts'
import type { SendResult } from '#src/ports/channel.ts'
import { readFailure } from './api-failure.ts'
import { readChatId, sendMessage, toResult } from './send-message.ts'
import type { SendOptions } from './send-message.ts'
import { splitText } from './split-text.ts'

/** Replaces a sent text and removes its buttons; what the server will not edit is sent as a new message. */
export async function amendMessage(to: Contact, ref: string, text: string, options: SendOptions): Promise<SendResult> {
  const chatId = readChatId(to)
  const messageId = readMessageId(ref)
  const send = (words: string) => sendMessage(to, { text: words, buttons: [] }, options)
  if (chatId === null || messageId === null) return send(text)
  const [first = '', ...rest] = splitText(text)
  const edited = await editMessage(chatId, messageId, first, options)
  if (edited.kind === 'refused') return send(text)
  if (edited.kind !== 'sent' || rest.length === 0) return edited
  const added = await send(rest.join(''))
  return added.kind === 'sent' ? edited : added
}

/** An edit may be repeated without harm, so one whose outcome is unknown is given back as `later`. */
async function editMessage(
  chatId: number,
  messageId: number,
  text: string,
  { connection, log }: SendOptions,
): Promise<SendResult> {
  const done: SendResult = { kind: 'sent', ref: `${chatId}:${messageId}` }
  const other = { link_preview_options: { is_disabled: true } }
  try {
    await connection.call((api, signal) => api.editMessageText(chatId, messageId, text, other, signal))
    return done
  } catch (error) {
    return readFailure(error)?.reason === 'not-modified' ? done : toResult(error, log)
  }
}

function readMessageId(ref: string): number | null {
  const match = /^-?\d+:(\d+)$/.exec(ref)
  return match?.[1] === undefined ? null : Number(match[1])
}
