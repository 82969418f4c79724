import { createKeepsake } from './keepsake.js'

const keptItems = 200

/**
 * The chats as far as this page knows them. Items come under their id with the number of their last change, so that the
 * same one told twice is still one, and the page can ask for what it missed.
 */
export function createChats() {
  /** @type {Map<string, { seq: number, items: Map<string, any> }>} */
  const chats = new Map()
  /** @type {Record<string, number>} */
  let received = {}
  const seen = createKeepsake('browser', 'seen', /** @type {Record<string, number>} */ ({}), isCounts)
  /** @type {string | null} */
  let epoch = null

  return {
    /**
     * The server said hello. If it was started anew everything is asked for again; until that comes, what stands stays.
     *
     * @param {string} next @param {Record<string, number>} marks
     */
    begin(next, marks) {
      if (epoch !== next) for (const chat of chats.values()) chat.seq = 0
      epoch = next
      received = marks
    },
    /** The last change known. @param {string} address */
    position: (address) => chats.get(address)?.seq ?? 0,
    /** @param {{ address: string, isWhole: boolean, items: any[] }} change */
    apply({ address, isWhole, items }) {
      const known = isWhole ? undefined : chats.get(address)
      const chat = known ?? { seq: 0, items: new Map() }
      for (const item of items) {
        if (item.seq >= (chat.items.get(item.id)?.seq ?? 0)) chat.items.set(item.id, item)
        chat.seq = Math.max(chat.seq, item.seq)
      }
      chats.set(address, chat)
    },
    /** @param {string} address */
    itemsOf(address) {
      const items = [...(chats.get(address)?.items.values() ?? [])]
      return items.sort((a, b) => a.order - b.order).slice(-keptItems)
    },
    /** @param {string} address @param {number} count */
    mark(address, count) {
      received = { ...received, [address]: count }
    },
    /** @param {string} address */
    see(address) {
      const count = received[address] ?? 0
      if (seen.get()[address] !== count) seen.set({ ...seen.get(), [address]: count })
    },
    /** @param {string} address */
    unread: (address) => Math.max(0, (received[address] ?? 0) - (seen.get()[address] ?? 0)),
  }
}

/** @param {unknown} value @returns {value is Record<string, number>} */
function isCounts(value) {
  return typeof value === 'object' && value !== null && Object.values(value).every(Number.isInteger)
}
