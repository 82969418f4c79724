// What the server takes as a message, for every double of it. Wording of refusals from memory of
// https://github.com/tdlib/telegram-bot-api (telegram-bot-api/Client.cpp); only "message is not modified" and "chat not
// found" are read by the product.
import { refusal, type Refusal } from './answer.ts'

/** https://core.telegram.org/bots/api#sendmessage: "1-4096 characters after entities parsing", counted in UTF-16 units. */
export const mostTextUnits = 4096
/** https://core.telegram.org/bots/api#inlinekeyboardbutton: "1-64 bytes". */
export const mostDataBytes = 64
/** https://core.telegram.org/bots/api#answercallbackquery: "0-200 characters". */
export const mostAnswerUnits = 200
/** https://core.telegram.org/bots/api#inlinekeyboardmarkup gives no number; 100 buttons in all, from memory. */
export const mostButtons = 100

export interface Keyboard {
  readonly inline_keyboard: readonly (readonly { readonly text: string; readonly callback_data: string }[])[]
}

/** Null where a message within all limits is meant. */
export function checkMessage({ text, reply_markup: markup }: Readonly<Record<string, unknown>>): Refusal | null {
  if (typeof text !== 'string' || text.trim() === '') return refusal(400, 'Bad Request: message text is empty')
  if (text.length > mostTextUnits) return refusal(400, 'Bad Request: message is too long')
  if (/\p{Surrogate}/u.test(text)) return refusal(400, 'Bad Request: strings must be encoded in UTF-8')
  return markup === undefined ? null : checkKeyboard(markup as Keyboard)
}

function checkKeyboard({ inline_keyboard: rows }: Keyboard): Refusal | null {
  const buttons = rows.flat()
  if (buttons.length > mostButtons) return refusal(400, 'Bad Request: reply markup is too long')
  if (buttons.some(({ text }) => typeof text === 'string' && text.trim() === '')) return refusal(400, 'Bad Request: inline keyboard button text must be non-empty')
  const sizes = buttons.map(({ callback_data: data }) => Buffer.byteLength(data))
  return sizes.every((size) => size >= 1 && size <= mostDataBytes) ? null : refusal(400, 'Bad Request: BUTTON_DATA_INVALID')
}
