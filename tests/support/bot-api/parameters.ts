// The parameters of each method that this product calls, as https://core.telegram.org/bots/api lists them. The server
// ignores a parameter that it does not know; the double refuses it, since it can only be a mistake of ours.
import { z } from 'zod'
import { Refused } from './answer.ts'

const chatId = z.union([z.number().int(), z.string().regex(/^-?\d+$/).transform(Number), z.string().startsWith('@')])
const button = z.strictObject({ text: z.string(), callback_data: z.string() })
const keyboard = z.strictObject({ inline_keyboard: z.array(z.array(button)) })
const linkPreview = z.strictObject({ is_disabled: z.boolean().optional() })
const kinds = z.array(z.string())

const message = { text: z.string(), link_preview_options: linkPreview.optional(), reply_markup: keyboard.optional() }

export const parameters = {
  getMe: z.strictObject({}),
  getWebhookInfo: z.strictObject({}),
  getUpdates: z.strictObject({
    offset: z.number().int().optional(),
    limit: z.number().int().min(1).max(100).optional(),
    timeout: z.number().int().min(0).optional(),
    allowed_updates: kinds.optional(),
  }),
  setWebhook: z.strictObject({
    url: z.string(),
    secret_token: z.string().optional(),
    allowed_updates: kinds.optional(),
    max_connections: z.number().int().min(1).max(100).optional(),
    drop_pending_updates: z.boolean().optional(),
    ip_address: z.string().optional(),
  }),
  deleteWebhook: z.strictObject({ drop_pending_updates: z.boolean().optional() }),
  sendMessage: z.strictObject({ chat_id: chatId, ...message }),
  editMessageText: z.strictObject({ chat_id: chatId, message_id: z.number().int(), ...message }),
  answerCallbackQuery: z.strictObject({ callback_query_id: z.string(), text: z.string().optional(), show_alert: z.boolean().optional() }),
} as const

export type MethodName = keyof typeof parameters
export type ParametersOf<Name extends MethodName> = z.infer<(typeof parameters)[Name]>

export function isMethod(name: string): name is MethodName {
  return Object.hasOwn(parameters, name)
}

/** Throws {@link Refused} with the first parameter that is wrong; its value is not repeated. */
export function readParameters<Name extends MethodName>(name: Name, given: unknown): ParametersOf<Name> {
  const read = parameters[name].safeParse(given)
  if (read.success) return read.data as ParametersOf<Name>
  const issue = read.error.issues[0]
  const where = issue?.code === 'unrecognized_keys' ? `unknown parameter ${issue.keys.join(', ')}` : `can't parse ${issue?.path.join('.') ?? 'parameters'}`
  throw new Refused(400, `Bad Request: ${where}`)
}
