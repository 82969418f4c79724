import type { Context } from 'grammy'
import { brandAs } from '#src/domain/identifier.ts'
import type { EventId } from '#src/domain/identifier.ts'
import type { Contact } from '#src/domain/message.ts'
import type { Inbound } from '#src/ports/channel.ts'

export const telegramName = 'telegram'

/** A start payload is at most 64 characters; one more is kept, so that a longer one cannot match an invitation. */
const keptTokenLength = 65

const readers = {
  message: (context) => (isPrivate(context) ? readMessage(context) : readShared(context)),
  // A sign of harm may be written into an earlier message, so edits are read as well.
  edited_message: (context) => (isPrivate(context) ? readEdit(context) : readShared(context)),
  callback_query: (context) => (isPrivate(context) ? readPress(context) : readShared(context)),
  my_chat_member: (context) => (isPrivate(context) ? readReach(context) : readMembership(context)),
} satisfies Record<string, (context: Context) => Inbound | null>

export type HandledKind = keyof typeof readers
export const handledKinds = Object.keys(readers) as HandledKind[]

/** What an update means to us; null for what concerns nobody. */
export function readUpdate(context: Context, kind: HandledKind): Inbound | null {
  return readers[kind](context)
}

function isPrivate(context: Context): boolean {
  return context.hasChatType('private')
}

function eventOf(context: Context): { id: EventId; from: Contact } | null {
  if (context.chatId === undefined) return null
  return { id: brandAs(`telegram:update:${context.update.update_id}`), from: contactOf(context.chatId) }
}

function contactOf(chatId: number): Contact {
  return { channel: telegramName, address: String(chatId) }
}

function readMessage(context: Context): Inbound | null {
  const event = eventOf(context)
  if (event === null) return null
  if (context.hasCommand('start')) return readStart(event, cleanText(context.match))
  // The words under a picture are read like any others: a red flag may stand there.
  const text = context.message?.text ?? context.message?.caption
  if (text !== undefined) return { kind: 'message', ...event, text: cleanText(text) }
  return isUnreadable(context) ? { kind: 'unreadable', ...event } : null
}

function readStart(event: { id: EventId; from: Contact }, payload: string): Inbound {
  if (payload === '') return { kind: 'message', ...event, text: '/start' }
  return { kind: 'join', ...event, token: payload.slice(0, keptTokenLength) }
}

/** What a person sent; service messages (a pin, a timer, a background) are not meant for us. */
function isUnreadable(context: Context): boolean {
  return context.has([
    'message:file',
    'message:contact',
    'message:dice',
    'message:game',
    'message:poll',
    'message:location',
    'message:venue',
    'message:story',
    'message:paid_media',
    'message:checklist',
  ])
}

function readEdit(context: Context): Inbound | null {
  const event = eventOf(context)
  const text = context.editedMessage?.text ?? context.editedMessage?.caption
  if (event === null || text === undefined) return null
  return { kind: 'message', ...event, text: cleanText(text), isEdit: true }
}

function readPress(context: Context): Inbound | null {
  const event = eventOf(context)
  const data = context.callbackQuery?.data
  return event === null || data === undefined ? null : { kind: 'press', ...event, data }
}

/** For private chats the update comes only when the person blocks or unblocks the bot. */
function readReach(context: Context): Inbound | null {
  const event = eventOf(context)
  const status = context.myChatMember?.new_chat_member.status
  if (event === null || status === undefined) return null
  return { kind: 'reach', ...event, isReachable: status !== 'kicked' && status !== 'left' }
}

function readMembership(context: Context): Inbound | null {
  const status = context.myChatMember?.new_chat_member.status
  return status === 'kicked' || status === 'left' ? null : readShared(context)
}

/** Groups and channels: several people read there. */
function readShared(context: Context): Inbound | null {
  const event = eventOf(context)
  if (event === null) return null
  const newChatId = context.message?.migrate_to_chat_id
  return newChatId === undefined
    ? { kind: 'group', ...event }
    : { kind: 'moved', ...event, to: contactOf(newChatId) }
}

/** Without control characters other than the newline; a tab parts words, so it becomes a space. */
function cleanText(text: string): string {
  return text.replace(/\t/g, ' ').replace(/[^\P{Cc}\n]/gu, '')
}
