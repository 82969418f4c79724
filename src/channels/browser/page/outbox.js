import { createKeepsake } from './keepsake.js'
import { newId } from './new-id.js'

const retryMs = 3000

/**
 * @typedef {{ id: string, from: string, kind: 'say' | 'press' | 'join' }} SentFrame
 * @typedef {{ frame: any, label: string, refusal: string | null }} Letter
 */

/**
 * What this page sends until the server has it for good: kept over a reload, sent again under the same id after a broken
 * line, and one at a time a person, so that their order stays.
 *
 * @param {{ send: (frame: object) => void, changed: (address: string) => void }} options
 */
export function createOutbox({ send, changed }) {
  const letters = createKeepsake('tab', 'outbox', /** @type {Letter[]} */ ([]), isLetters)
  /** @type {Set<string>} */
  const underWay = new Set()
  let isOpen = false

  const waiting = () => letters.get().filter((letter) => letter.refusal === null)

  function sendNext() {
    if (!isOpen) return
    const busy = new Set()
    for (const { frame } of waiting()) {
      if (busy.has(frame.from)) continue
      busy.add(frame.from)
      if (underWay.has(frame.id)) continue
      underWay.add(frame.id)
      send(frame)
    }
  }

  /** @param {string} id @param {(letter: Letter) => Letter[]} conclude */
  function replace(id, conclude) {
    const letter = letters.get().find((one) => one.frame.id === id)
    if (letter === undefined) return
    underWay.delete(id)
    letters.set(letters.get().flatMap((one) => (one === letter ? conclude(one) : [one])))
    changed(letter.frame.from)
  }

  return {
    /** @param {{ kind: string, from: string, [key: string]: string }} content @param {string} label */
    add(content, label) {
      const frame = { ...content, id: newId(24) }
      letters.set([...letters.get(), { frame, label, refusal: null }])
      changed(frame.from)
      sendNext()
    },
    /** @param {string} address */
    of: (address) => letters.get().filter((letter) => letter.frame.from === address),
    opened() {
      isOpen = true
      underWay.clear()
      sendNext()
    },
    closed() {
      isOpen = false
    },
    /** @param {string} id */
    taken(id) {
      replace(id, () => [])
      sendNext()
    },
    /** @param {string} id @param {string} code */
    refused(id, code) {
      if (code === 'unavailable') setTimeout(() => underWay.delete(id) && sendNext(), retryMs)
      else replace(id, (letter) => [{ ...letter, refusal: code }])
      sendNext()
    },
  }
}

/** @param {unknown} value @returns {value is Letter[]} */
function isLetters(value) {
  if (!Array.isArray(value)) return false
  return value.every((one) => typeof one?.frame?.id === 'string' && typeof one.frame.from === 'string')
}
