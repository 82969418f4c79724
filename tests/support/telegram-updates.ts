import type { Chat, Message, MessageEntity, PhotoSize, Update, User } from 'grammy/types'

const sentAtSeconds = 1_750_000_000

export const botUser: User & { is_bot: true; username: string } = {
  id: 4242,
  is_bot: true,
  first_name: 'Neck sessions',
  username: 'neck_sessions_bot',
}

function personOf(chatId: number): User {
  return { id: chatId, is_bot: false, first_name: 'Ana' }
}

function privateChat(chatId: number): Chat.PrivateChat {
  return { id: chatId, type: 'private', first_name: 'Ana' }
}

function privateMessage<T extends Partial<Message>>(chatId: number, content: T) {
  return { message_id: 7, date: sentAtSeconds, chat: privateChat(chatId), from: personOf(chatId), ...content }
}

/** A message text; a leading command gets its entity, as the server gives it. */
function textContent(text: string): { text: string; entities?: MessageEntity[] } {
  const command = /^\/\w+(@\w+)?/.exec(text)
  if (command === null) return { text }
  return { text, entities: [{ type: 'bot_command', offset: 0, length: command[0].length }] }
}

export function textUpdate(updateId: number, chatId: number, text: string): Update {
  return { update_id: updateId, message: privateMessage(chatId, textContent(text)) }
}

export function editUpdate(updateId: number, chatId: number, text: string): Update {
  const edited = { ...privateMessage(chatId, textContent(text)), edit_date: sentAtSeconds + 60 }
  return { update_id: updateId, edited_message: edited }
}

const photo: PhotoSize[] = [{ file_id: 'p', file_unique_id: 'p', width: 90, height: 90 }]
const file = { file_id: 'f', file_unique_id: 'f' }

/** What people send that is not text, and what merely happens in a chat. */
export const contents = {
  photo: { photo },
  voice: { voice: { ...file, duration: 3 } },
  sticker: { sticker: { ...file, type: 'regular', width: 9, height: 9, is_animated: false, is_video: false } },
  location: { location: { latitude: 1, longitude: 2 } },
  contact: { contact: { phone_number: '+100', first_name: 'Ana' } },
  captionedPhoto: { photo, caption: 'my arm is numb' },
  timer: { message_auto_delete_timer_changed: { message_auto_delete_time: 86_400 } },
} satisfies Record<string, Partial<Message>>

export function contentUpdate(updateId: number, chatId: number, content: keyof typeof contents): Update {
  return { update_id: updateId, message: privateMessage(chatId, contents[content]) as Message & Update.NonChannel }
}

export function pressUpdate(updateId: number, chatId: number, data: string): Update {
  const message = { message_id: 7, date: sentAtSeconds, chat: privateChat(chatId), from: botUser, text: 'How much?' }
  return {
    update_id: updateId,
    callback_query: { id: `press-${updateId}`, from: personOf(chatId), chat_instance: 'c', message, data },
  }
}

export function reachUpdate(updateId: number, chatId: number, status: 'member' | 'kicked'): Update {
  return memberUpdate(updateId, privateChat(chatId), status, personOf(chatId))
}

const supergroup = (chatId: number): Chat.SupergroupChat => ({ id: chatId, type: 'supergroup', title: 'Training' })

export function groupUpdate(updateId: number, chatId: number, text: string): Update {
  const group = supergroup(chatId)
  return { update_id: updateId, message: { message_id: 7, date: sentAtSeconds, chat: group, from: personOf(5), text } }
}

export function groupPressUpdate(updateId: number, chatId: number, data: string): Update {
  const message = { message_id: 7, date: sentAtSeconds, chat: supergroup(chatId), from: botUser, text: 'How much?' }
  return {
    update_id: updateId,
    callback_query: { id: `press-${updateId}`, from: personOf(5), chat_instance: 'c', message, data },
  }
}

export function groupMemberUpdate(updateId: number, chatId: number, status: 'member' | 'left'): Update {
  return memberUpdate(updateId, supergroup(chatId), status, personOf(5))
}

export function channelMemberUpdate(updateId: number, chatId: number): Update {
  return memberUpdate(updateId, { id: chatId, type: 'channel', title: 'News' }, 'member', personOf(5))
}

export function migrationUpdate(updateId: number, from: number, to: number): Update {
  const chat: Chat.GroupChat = { id: from, type: 'group', title: 'Training' }
  const message = { message_id: 7, date: sentAtSeconds, chat, from: personOf(5), migrate_to_chat_id: to }
  return { update_id: updateId, message }
}

function memberUpdate(
  updateId: number,
  chat: Chat,
  status: 'member' | 'kicked' | 'left',
  from: User,
): Update {
  const member = { user: botUser, status: 'member' } as const
  const next =
    status === 'kicked' ? ({ user: botUser, status, until_date: 0 } as const) : ({ user: botUser, status } as const)
  return {
    update_id: updateId,
    my_chat_member: { chat, from, date: sentAtSeconds, old_chat_member: member, new_chat_member: next },
  }
}
