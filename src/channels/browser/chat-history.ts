import { z } from 'zod'
import { itemSchema, type Item, type ItemDraft } from './item.ts'

/** What is kept of one person's chat, and how many people may have one. The record of truth is the chart, not this. */
const keptItems = 200
const largestNumberOfChats = 100

const chatSchema = z.strictObject({
  address: z.string(),
  /** Messages ever sent to this person. */
  received: z.int().min(0),
  nextOrder: z.int().min(1),
  items: z.array(itemSchema),
})

export const savedHistorySchema = z.strictObject({ format: z.literal(1), chats: z.array(chatSchema) })
export type SavedHistory = z.infer<typeof savedHistorySchema>

interface Chat {
  received: number
  nextOrder: number
  /** In their order; a changed item keeps its place. */
  readonly items: Map<string, Item>
}

export interface ChatChange {
  readonly isWhole: boolean
  readonly items: readonly Item[]
}

export interface ChatHistory {
  /** Appends an item, or null if there are too many people already. An id that is there keeps its item. */
  add(address: string, draft: ItemDraft): Item | null
  find(address: string, id: string): Item | null
  /** Replaces the text of a message and removes its buttons; null if the message is no longer kept. */
  amend(address: string, id: string, text: string): Item | null
  markTaken(address: string, id: string): void
  /** What changed after `seq`; the whole chat if what the page knows of it is no longer so. */
  changedAfter(address: string, seq: number): ChatChange
  hasRoomFor(address: string): boolean
  addresses(): string[]
  marks(): Record<string, number>
  forget(address: string): void
  toSaved(): SavedHistory
}

export const emptyHistory: SavedHistory = { format: 1, chats: [] }

/** `changed` hears of every item that was added or changed. */
export function createChatHistory(saved: SavedHistory, changed: (address: string, item: Item) => void): ChatHistory {
  const chats = new Map<string, Chat>(saved.chats.map((chat) => [chat.address, restoreChat(chat)]))
  const forgottenAt = new Map<string, number>()
  let seq = Math.max(0, ...saved.chats.flatMap((chat) => chat.items.map((item) => item.seq)))

  function put(address: string, chat: Chat, item: Item): Item {
    chat.items.set(item.id, item)
    for (const id of [...chat.items.keys()].slice(0, -keptItems)) chat.items.delete(id)
    changed(address, item)
    return item
  }

  const find = (address: string, id: string) => chats.get(address)?.items.get(id) ?? null
  const hasRoomFor = (address: string) => chats.has(address) || chats.size < largestNumberOfChats

  return {
    add(address, draft) {
      const present = find(address, draft.id)
      if (present !== null) return present
      if (!hasRoomFor(address)) return null
      const chat = chats.get(address) ?? { received: 0, nextOrder: 1, items: new Map() }
      chats.set(address, chat)
      if (draft.kind === 'message') chat.received += 1
      return put(address, chat, { ...draft, order: chat.nextOrder++, seq: ++seq })
    },
    find,
    amend(address, id, text) {
      const item = find(address, id)
      if (item?.kind !== 'message') return null
      return put(address, chats.get(address)!, { ...item, text, isOpen: false, seq: ++seq })
    },
    markTaken(address, id) {
      const item = find(address, id)
      if (item === null || item.kind === 'message' || item.isTaken) return
      put(address, chats.get(address)!, { ...item, isTaken: true, seq: ++seq })
    },
    changedAfter(address, after) {
      const items = [...(chats.get(address)?.items.values() ?? [])]
      const isWhole = after <= (forgottenAt.get(address) ?? 0)
      return { isWhole, items: isWhole ? items : items.filter((item) => item.seq > after) }
    },
    hasRoomFor,
    addresses: () => [...chats.keys()],
    marks: () => Object.fromEntries([...chats].map(([address, chat]) => [address, chat.received])),
    forget(address) {
      chats.delete(address)
      forgottenAt.set(address, ++seq)
    },
    toSaved: () => ({ format: 1, chats: [...chats].map(([address, chat]) => saveChat(address, chat)) }),
  }
}

function restoreChat(chat: SavedHistory['chats'][number]): Chat {
  return { ...chat, items: new Map(chat.items.map((item) => [item.id, item])) }
}

function saveChat(address: string, { received, nextOrder, items }: Chat): SavedHistory['chats'][number] {
  return { address, received, nextOrder, items: [...items.values()] }
}
