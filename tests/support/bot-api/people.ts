// What people do in their chats with the bot.
import type { Update } from 'grammy/types'
import type { Instant } from '#src/domain/identifier.ts'
import type { Clock } from '#src/ports/clock.ts'
import { pressUpdate, reachUpdate, textUpdate } from '../telegram-updates.ts'
import type { ChatBook, ShownMessage } from './chat-book.ts'

export interface People {
  /** An update as it stands, e.g. one that was sent before; nothing is noted of who sent it. */
  push(update: Update): void
  /** Gives the update's id. */
  say(chat: number, text: string): number
  /** Presses the newest button of that label on the screen, or the label's as it was first sent, where it is gone by now. */
  press(chat: number, label: string): number
  pressData(chat: number, data: string): number
  block(chat: number): void
  unblock(chat: number): void
  /** Nothing is said to the bot of it: the next message is refused. */
  blockSilently(chat: number): void
  deactivate(chat: number): void
}

export interface PeopleParts {
  readonly chats: ChatBook
  readonly clock: Clock
  readonly push: (update: Update) => void
}

const firstUpdateId = 100_000

export function createPeople({ chats, clock, push }: PeopleParts): People & { readonly pressedAt: (id: string) => Instant | null } {
  const presses = new Map<string, Instant>()
  let updateId = firstUpdateId

  function next(): number {
    updateId += 1
    return updateId
  }

  /** Whoever writes has opened the chat, and is blocking nobody. */
  function send(chat: number, update: Update): number {
    chats.open(chat)
    take(update)
    return update.update_id
  }

  function take(update: Update): void {
    if (update.callback_query !== undefined) presses.set(update.callback_query.id, clock.now())
    push(update)
  }

  function pressData(chat: number, data: string): number {
    return send(chat, pressUpdate(next(), chat, data))
  }

  return {
    pressedAt: (id) => presses.get(id) ?? null,
    push: take,
    say: (chat, text) => send(chat, textUpdate(next(), chat, text)),
    press: (chat, label) => pressData(chat, dataOf(chats.messages(chat), chat, label)),
    pressData,
    block(chat) {
      chats.block(chat)
      take(reachUpdate(next(), chat, 'kicked'))
    },
    unblock(chat) {
      chats.unblock(chat)
      take(reachUpdate(next(), chat, 'member'))
    },
    blockSilently: (chat) => chats.block(chat),
    deactivate: (chat) => chats.deactivate(chat),
  }
}

function dataOf(messages: readonly ShownMessage[], chat: number, label: string): string {
  const find = (buttonsOf: (message: ShownMessage) => ShownMessage['buttons']) =>
    messages.flatMap(buttonsOf).findLast((button) => button.label === label)
  const found = find(({ buttons }) => buttons) ?? find(({ sent }) => sent.buttons)
  if (found === undefined) throw new Error(`no button "${label}" was ever in chat ${chat}`)
  return found.data
}
