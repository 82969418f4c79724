import { make } from './item-view.js'
import { newId } from './new-id.js'
import { words } from './words.js'

/**
 * The clinic's clock and the buttons that move it on. A move is never sent twice: it is not the same the second time.
 *
 * @param {(frame: object) => void} send
 */
export function createClockBar(send) {
  const bar = /** @type {HTMLElement} */ (document.querySelector('#clock'))
  const text = /** @type {HTMLElement} */ (document.querySelector('#clock-text'))
  const choices = /** @type {HTMLElement} */ (document.querySelector('#clock-choices'))
  const outcome = /** @type {HTMLElement} */ (document.querySelector('#clock-outcome'))
  /** @type {string | null} */
  let moving = null
  let offered = ''

  /** @param {string | null} id @param {string} said */
  function setMoving(id, said) {
    moving = id
    outcome.textContent = said
    // Not `disabled`, which would drop the focus of whoever pressed by keyboard.
    for (const button of choices.children) button.setAttribute('aria-disabled', String(id !== null))
  }

  /** @param {{ id: string, label: string }} choice */
  function viewChoice(choice) {
    const button = /** @type {HTMLButtonElement} */ (make('button', '', choice.label))
    button.type = 'button'
    button.addEventListener('click', () => {
      if (moving !== null) return
      const id = newId(24)
      setMoving(id, words.moving)
      send({ kind: 'move', id, choice: choice.id })
    })
    return button
  }

  return {
    /**
     * @param {{ now: { text: string, zone: string, iso: string },
     *   choices: { id: string, label: string }[] } | null} clock
     */
    show(clock) {
      bar.hidden = clock === null
      if (clock === null) return
      text.textContent = clock.now.text
      text.title = `${clock.now.iso} ${clock.now.zone}`
      if (offered === JSON.stringify(clock.choices)) return
      offered = JSON.stringify(clock.choices)
      choices.replaceChildren(...clock.choices.map(viewChoice))
      setMoving(moving, outcome.textContent ?? '')
    },
    /** @param {string} id */
    taken: (id) => moving === id && setMoving(null, ''),
    /** @param {string} id */
    refused: (id) => moving === id && setMoving(null, words.moveFailed),
    closed: () => moving !== null && setMoving(null, words.moveUnclear),
  }
}
