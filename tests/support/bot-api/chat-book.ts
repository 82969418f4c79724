// The chats that the server knows, and what stands in them.
import type { Instant } from '#src/domain/identifier.ts'
import { Refused } from './answer.ts'
import type { Keyboard } from './message-rules.ts'

export interface ShownButton {
  readonly label: string
  readonly data: string
}

/** A message of the bot as it stands on the person's screen. */
export interface ShownMessage {
  readonly id: number
  readonly chat: number
  readonly at: Instant
  readonly text: string
  readonly buttons: readonly ShownButton[]
  /** As it was first sent. */
  readonly sent: { readonly text: string; readonly buttons: readonly ShownButton[] }
  readonly edits: number
}

export interface ChatBook {
  /** A person has written, or pressed start: from then on the bot may write to them. */
  open(chat: number): void
  block(chat: number): void
  unblock(chat: number): void
  /** The account is gone. */
  deactivate(chat: number): void
  /** Throws {@link Refused} where the chat is unknown, blocked or gone. */
  require(chat: number): void
  send(chat: number, text: string, keyboard: Keyboard | undefined, at: Instant): ShownMessage
  edit(chat: number, id: number, text: string, keyboard: Keyboard | undefined): ShownMessage
  /** Oldest first. */
  messages(chat: number): readonly ShownMessage[]
  /** Of every chat, in the order in which they were sent. */
  all(): readonly ShownMessage[]
}

type Standing = 'open' | 'blocked' | 'deactivated'

/** Wording of refusals from memory of the published server source. */
const closed: Readonly<Record<Exclude<Standing, 'open'>, string>> = {
  blocked: 'Forbidden: bot was blocked by the user',
  deactivated: 'Forbidden: user is deactivated',
}

const notModified =
  'Bad Request: message is not modified: specified new message content and reply markup are exactly the same as a current content and reply markup of the message'

export function createChatBook(): ChatBook {
  const standings = new Map<number, Standing>()
  const shown = new Map<number, ShownMessage>()
  const byChat = new Map<number, number[]>()
  let lastId = 1000

  function require(chat: number): void {
    const standing = standings.get(chat)
    if (standing === undefined) throw new Refused(400, 'Bad Request: chat not found')
    if (standing !== 'open') throw new Refused(403, closed[standing])
  }

  const messages = (chat: number): readonly ShownMessage[] => (byChat.get(chat) ?? []).map((id) => shown.get(id)!)

  return {
    require,
    messages,
    open(chat) {
      if (!standings.has(chat)) standings.set(chat, 'open')
    },
    block: (chat) => void standings.set(chat, 'blocked'),
    unblock: (chat) => void standings.set(chat, 'open'),
    deactivate: (chat) => void standings.set(chat, 'deactivated'),
    all: () => [...shown.values()],
    send(chat, text, keyboard, at) {
      require(chat)
      lastId += 1
      const content = { text: trimmed(text), buttons: buttonsOf(keyboard) }
      const message: ShownMessage = { id: lastId, chat, at, ...content, sent: content, edits: 0 }
      shown.set(lastId, message)
      byChat.set(chat, [...(byChat.get(chat) ?? []), lastId])
      return message
    },
    edit(chat, id, text, keyboard) {
      require(chat)
      const before = shown.get(id)
      if (before === undefined || before.chat !== chat) throw new Refused(400, 'Bad Request: message to edit not found')
      // Without a keyboard in the call the buttons go: https://core.telegram.org/bots/api#editmessagetext.
      const content = { text: trimmed(text), buttons: buttonsOf(keyboard) }
      const isSame = content.text === before.text && JSON.stringify(content.buttons) === JSON.stringify(before.buttons)
      if (isSame) throw new Refused(400, notModified)
      const message = { ...before, ...content, edits: before.edits + 1 }
      shown.set(id, message)
      return message
    },
  }
}

/** The server cuts white space at both ends (from memory). */
function trimmed(text: string): string {
  return text.trim()
}

function buttonsOf(keyboard: Keyboard | undefined): readonly ShownButton[] {
  return (keyboard?.inline_keyboard ?? []).flat().map(({ text, callback_data: data }) => ({ label: text, data }))
}
