import { splitAtJoinLinks } from './join-link.js'
import { words } from './words.js'

/**
 * @typedef {{ pressed: (of: string, button: { label: string, data: string }) => void, joined: (token: string) => void,
 *   origins: () => readonly string[] }} ItemActs
 * @typedef {{ element: HTMLElement, version: string }} ItemView
 */

/** @type {Record<string, (item: any, acts: ItemActs) => HTMLElement>} */
const views = {
  message: viewMessage,
  said: (item) => viewOwn(item, words.byPerson, item.text),
  pressed: (item) => viewOwn(item, words.pressed, item.label),
  joined: (item) => viewOwn(item, words.byPerson, words.joined),
}

/** @type {Record<string, string | null>} */
const labels = { alert: words.alert, reminder: words.reminder, reply: null }

/**
 * One line of a chat. `showsStamp` is false where the line before has the same.
 *
 * @param {any} item @param {boolean} showsStamp @param {ItemActs} acts
 */
export function viewItem(item, showsStamp, acts) {
  const element = views[item.kind](item, acts)
  element.dataset.id = item.id
  // So that the focus has somewhere to stay when a pressed button goes.
  element.tabIndex = -1
  if (showsStamp && item.stamp !== null) element.append(make('p', 'stamp', item.stamp))
  return element
}

/** @param {any} item @param {ItemActs} acts */
function viewMessage(item, acts) {
  const element = make('article', `item message ${item.urgency}`)
  element.append(make('span', 'unseen', words.byCoach))
  const label = labels[item.urgency]
  if (label !== null) {
    const head = make('p', 'label')
    if (item.urgency === 'alert') head.append(warningIcon())
    head.append(label)
    element.append(head)
  }
  const text = make('p', 'text')
  text.dir = 'auto'
  for (const part of splitAtJoinLinks(item.text, acts.origins())) text.append(viewPart(part, acts))
  element.append(text)
  if (item.isOpen && item.buttons.length > 0) element.append(viewButtons(item, acts))
  return element
}

/** @param {import('./join-link.js').TextPart} part @param {ItemActs} acts */
function viewPart(part, acts) {
  if (part.kind === 'text') return part.text
  const link = document.createElement('a')
  link.href = `/?join=${part.token}`
  link.textContent = part.text
  link.addEventListener('click', (event) => {
    if (event.ctrlKey || event.metaKey || event.shiftKey) return
    event.preventDefault()
    acts.joined(part.token)
  })
  return link
}

/** @param {any} item @param {ItemActs} acts */
function viewButtons(item, acts) {
  const rows = make('div', 'rows')
  for (const buttons of item.buttons) {
    const row = make('div', 'row')
    for (const button of buttons) {
      const element = /** @type {HTMLButtonElement} */ (make('button', 'answer', button.label))
      element.type = 'button'
      element.addEventListener('click', () => acts.pressed(item.id, button))
      row.append(element)
    }
    rows.append(row)
  }
  return rows
}

/** @param {any} item @param {string} who @param {string} shown */
function viewOwn(item, who, shown) {
  const element = make('article', `item own ${item.kind}`)
  element.append(make('span', 'unseen', who))
  const text = make('p', 'text', shown)
  text.dir = 'auto'
  element.append(text)
  if (item.state !== null) element.append(make('p', 'state', item.state))
  return element
}

function warningIcon() {
  const space = 'http://www.w3.org/2000/svg'
  const icon = document.createElementNS(space, 'svg')
  icon.setAttribute('viewBox', '0 0 16 16')
  icon.setAttribute('aria-hidden', 'true')
  const path = document.createElementNS(space, 'path')
  path.setAttribute('d', 'M8 1.5 15 14H1zM8 6v4M8 11.6v.9')
  icon.append(path)
  return icon
}

/** @param {string} tag @param {string} classes @param {string} [text] */
export function make(tag, classes, text) {
  const element = document.createElement(tag)
  element.className = classes
  if (text !== undefined) element.textContent = text
  return element
}
