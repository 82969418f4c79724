import { make, viewItem } from './item-view.js'
import { words } from './words.js'

/** UTF-16 units; the server refuses more. */
const longestText = 4000
const nearEndPx = 80

/**
 * One of the two chats on the page.
 *
 * @param {HTMLElement} root
 * @param {{ chosen: (address: string) => void, said: (text: string) => void,
 *   acts: import('./item-view.js').ItemActs }} listener
 */
export function createPane(root, listener) {
  const select = /** @type {HTMLSelectElement} */ (root.querySelector('select'))
  const log = /** @type {HTMLElement} */ (root.querySelector('.log'))
  const elsewhere = /** @type {HTMLElement} */ (root.querySelector('.elsewhere'))
  const newer = /** @type {HTMLElement} */ (root.querySelector('.newer'))
  const box = createBox(root, listener.said)
  /** @type {string | null} */
  let shown = null

  select.addEventListener('change', () => listener.chosen(select.value))
  newer.addEventListener('click', () => toEnd())
  log.addEventListener('scroll', () => isAtEnd() && (newer.hidden = true))
  new ResizeObserver(() => newer.hidden && toEnd()).observe(log)

  const isAtEnd = () => log.scrollHeight - log.scrollTop - log.clientHeight < nearEndPx

  /** Where the log was left at the top of a message that is taller than it; null where it was left at its end. */
  let restsAt = /** @type {number | null} */ (null)
  const isAtRest = () => isAtEnd() || log.scrollTop === restsAt

  /** A message taller than the log is read from its top: an alert without its heading would be a riddle. */
  function toEnd() {
    const last = log.lastElementChild
    const isTall = last !== null && last.getBoundingClientRect().height > log.clientHeight
    if (isTall) log.scrollTop += last.getBoundingClientRect().top - log.getBoundingClientRect().top
    else log.scrollTop = log.scrollHeight
    restsAt = isTall ? log.scrollTop : null
    newer.hidden = true
  }

  return {
    /** @param {{ address: string, name: string, unread: number }[]} people @param {string | null} chosen */
    showPeople(people, chosen) {
      showOptions(select, people, chosen)
      select.disabled = people.length === 0
      const others = people.filter((person) => person.unread > 0 && person.address !== chosen)
      const labels = others.map((person) => words.unreadOf(person.name, person.unread))
      if (elsewhere.textContent === labels.join('')) return
      elsewhere.replaceChildren(
        ...others.map((person, index) => {
          const button = make('button', 'mark', labels[index])
          button.addEventListener('click', () => listener.chosen(person.address))
          return button
        }),
      )
    },
    /** @param {{ address: string, name: string } | null} person @param {any[]} items */
    showChat(person, items) {
      const isOther = shown !== (person?.address ?? null)
      const wasAtEnd = isOther || isAtRest()
      const hadItems = log.childElementCount
      // A chat that was chosen is not read out from its beginning.
      if (isOther) log.setAttribute('aria-live', 'off')
      updateLog(log, items, listener.acts, isOther)
      if (isOther) requestAnimationFrame(() => log.setAttribute('aria-live', 'polite'))
      log.setAttribute('aria-label', words.logOf(person?.name ?? words.nobody))
      if (isOther) box.switchTo(person?.address ?? null)
      box.nameAs(person?.name ?? words.nobody)
      shown = person?.address ?? null
      if (wasAtEnd) toEnd()
      else if (log.childElementCount > hadItems) newer.hidden = false
    },
    toEnd,
    focus: box.focus,
  }
}

/** @param {HTMLElement} root @param {(text: string) => void} said */
function createBox(root, said) {
  const form = /** @type {HTMLFormElement} */ (root.querySelector('form'))
  const area = /** @type {HTMLTextAreaElement} */ (form.querySelector('textarea'))
  const label = /** @type {HTMLLabelElement} */ (form.querySelector('label'))
  const button = /** @type {HTMLButtonElement} */ (form.querySelector('button'))
  /** What was begun and not sent, by person. @type {Map<string | null, string>} */
  const drafts = new Map()
  /** @type {string | null} */
  let writer = null
  area.maxLength = longestText

  form.addEventListener('submit', (event) => {
    event.preventDefault()
    const text = area.value.trim()
    if (text === '' || writer === null) return
    area.value = ''
    said(text)
  })
  area.addEventListener('keydown', (event) => {
    if (event.key !== 'Enter' || event.shiftKey || event.isComposing) return
    event.preventDefault()
    form.requestSubmit()
  })

  return {
    /** @param {string | null} address */
    switchTo(address) {
      drafts.set(writer, area.value)
      writer = address
      area.value = drafts.get(address) ?? ''
      area.disabled = button.disabled = address === null
    },
    /** @param {string} name */
    nameAs(name) {
      label.textContent = words.boxOf(name)
      area.placeholder = words.boxOf(name)
    },
    focus: () => area.focus(),
  }
}

/** @param {HTMLSelectElement} select @param {any[]} people @param {string | null} chosen */
function showOptions(select, people, chosen) {
  const written = people.map((person) => {
    const isElsewhere = person.unread > 0 && person.address !== chosen
    return { value: person.address, text: isElsewhere ? words.unreadOf(person.name, person.unread) : person.name }
  })
  if (written.length === 0) written.push({ value: '', text: words.nobody })
  // An open list closes when its options are replaced: only changed ones are.
  const present = [...select.options].map(({ value, text }) => ({ value, text }))
  if (JSON.stringify(present) !== JSON.stringify(written)) {
    select.replaceChildren(...written.map(({ value, text }) => new Option(text, value)))
  }
  select.value = chosen ?? ''
}

/**
 * Brings the log up to date and touches only what changed: what stands is neither read out again nor loses the focus.
 *
 * @param {HTMLElement} log @param {any[]} items @param {import('./item-view.js').ItemActs} acts @param {boolean} isAnew
 */
function updateLog(log, items, acts, isAnew) {
  if (isAnew) log.replaceChildren()
  log.querySelector('.empty')?.remove()
  const present = new Map([...log.children].map((child) => [/** @type {HTMLElement} */ (child).dataset.id, child]))
  let stamp = null
  /** @type {HTMLElement | null} */
  let before = null
  for (const item of items) {
    const showsStamp = item.stamp !== stamp
    stamp = item.stamp
    const version = JSON.stringify([item.seq, item.state, showsStamp])
    let element = /** @type {HTMLElement | undefined} */ (present.get(item.id))
    present.delete(item.id)
    if (element?.dataset.version !== version) element = renew(element, viewItem(item, showsStamp, acts), version)
    /** @type {ChildNode | null} */
    const place = before === null ? log.firstChild : before.nextSibling
    if (place !== element) log.insertBefore(element, place)
    before = element
  }
  for (const gone of present.values()) gone.remove()
  if (items.length === 0) log.append(make('p', 'empty', words.nothingYet))
}

/** @param {HTMLElement | undefined} old @param {HTMLElement} element @param {string} version */
function renew(old, element, version) {
  element.dataset.version = version
  const hadFocus = old?.contains(document.activeElement) === true
  old?.replaceWith(element)
  if (hadFocus) element.focus({ preventScroll: true })
  return element
}
