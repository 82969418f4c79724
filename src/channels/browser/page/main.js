import { createChats } from './chats.js'
import { createClockBar } from './clock-bar.js'
import { createConnection } from './connection.js'
import { readToken } from './join-link.js'
import { createKeepsake } from './keepsake.js'
import { newId } from './new-id.js'
import { createOutbox } from './outbox.js'
import { createPane } from './pane.js'
import { words } from './words.js'

/** @typedef {'client' | 'therapist'} PaneName */
/** @type {PaneName[]} */
const paneNames = ['client', 'therapist']
const line = /** @type {HTMLElement} */ (document.querySelector('#line'))
const isNarrow = matchMedia('(max-width: 759px)')

const chats = createChats()
const outbox = createOutbox({ send: (frame) => connection.send(frame), changed: () => show() })
const clockBar = createClockBar((frame) => connection.send(frame))
const chosen = createKeepsake('tab', 'chosen', /** @type {Partial<Record<PaneName, string>>} */ ({}), isChoice)
/** @type {Record<PaneName, { address: string, name: string | null }[]>} */
let people = { client: [], therapist: [] }
let servedAddress = location.origin
let isConnected = false

const panes = {
  client: openPane('client'),
  therapist: openPane('therapist'),
}

/** @param {PaneName} name */
function openPane(name) {
  const root = /** @type {HTMLElement} */ (document.querySelector(`[data-pane="${name}"]`))
  return createPane(root, {
    chosen: (address) => choose(name, address),
    said: (text) => outbox.add({ kind: 'say', from: chosen.get()[name] ?? '', text: toReadable(text) }, text),
    acts: {
      pressed: (of, { label, data }) => outbox.add({ kind: 'press', from: chosen.get()[name] ?? '', of, data }, label),
      joined: join,
      origins: () => [location.origin, servedAddress],
    },
  })
}

/** @type {Record<string, (frame: any) => void>} */
const handlers = {
  hello(frame) {
    isConnected = true
    servedAddress = frame.address
    chats.begin(frame.epoch, frame.marks)
    clockBar.show(frame.clock)
    setPeople(frame.people)
    paneNames.forEach(watch)
    outbox.opened()
  },
  people: (frame) => setPeople(frame.people),
  chat: (frame) => chats.apply(frame),
  mark: (frame) => chats.mark(frame.address, frame.received),
  taken(frame) {
    outbox.taken(frame.id)
    clockBar.taken(frame.id)
  },
  refusal(frame) {
    outbox.refused(frame.id, frame.code)
    clockBar.refused(frame.id)
  },
  clock: (frame) => clockBar.show(frame.clock),
}

const connection = createConnection({
  frame(frame) {
    handlers[frame.kind]?.(frame)
    show()
  },
  opened: () => undefined,
  closed() {
    isConnected = false
    outbox.closed()
    clockBar.closed()
    show()
  },
})

/** @param {{ clients: any[], therapists: any[] }} next */
function setPeople(next) {
  people = { client: next.clients, therapist: next.therapists }
  for (const name of paneNames) {
    const first = people[name][0]
    if (first !== undefined && !isStillThere(name)) choose(name, first.address)
  }
}

/** Whoever is shown and not listed has just opened an invitation, or is gone. @param {PaneName} name */
function isStillThere(name) {
  const address = chosen.get()[name]
  if (address === undefined) return false
  const isListed = people[name].some((person) => person.address === address)
  return isListed || outbox.of(address).length > 0 || chats.itemsOf(address).length > 0
}

/** @param {PaneName} name @param {string} address */
function choose(name, address) {
  chosen.set({ ...chosen.get(), [name]: address })
  watch(name)
  show()
}

/** @param {PaneName} name */
function watch(name) {
  const address = chosen.get()[name]
  if (isConnected && address !== undefined) {
    connection.send({ kind: 'watch', pane: name, address, since: chats.position(address) })
  }
}

/** An invitation is opened by somebody new, in the client's pane. @param {string} token */
function join(token) {
  const from = `client-${newId(8)}`
  choose('client', from)
  showOnly('client')
  outbox.add({ kind: 'join', from, token }, words.joined)
}

function show() {
  line.textContent = isConnected ? words.connected : words.interrupted
  line.dataset.state = isConnected ? 'connected' : 'interrupted'
  for (const name of paneNames) {
    const address = chosen.get()[name]
    if (address !== undefined && isSeen(name)) chats.see(address)
  }
  for (const name of paneNames) {
    const listed = listPeople(name)
    const person = listed.find((one) => one.address === chosen.get()[name]) ?? null
    panes[name].showPeople(listed, person?.address ?? null)
    panes[name].showChat(person, person === null ? [] : listItems(person.address))
    showMark(name, listed)
  }
}

/** Everybody who may be chosen, with whoever is shown but not named yet. @param {PaneName} name */
function listPeople(name) {
  const address = chosen.get()[name]
  const isMissing = address !== undefined && !people[name].some((person) => person.address === address)
  return [...people[name], ...(isMissing ? [{ address, name: null }] : [])].map((person) => ({
    address: person.address,
    name: person.name ?? words.stranger(person.address),
    unread: chats.unread(person.address),
  }))
}

/** What the server has, and after it what is still on its way. @param {string} address */
function listItems(address) {
  const letters = outbox.of(address)
  const waiting = isConnected ? words.waiting : words.kept
  const items = chats.itemsOf(address).map((item) => {
    const isUnderWay = letters.some((letter) => letter.frame.id === item.id)
    return { ...item, state: item.isTaken === false ? (isUnderWay ? waiting : words.notTaken) : null }
  })
  const known = new Set(items.map((item) => item.id))
  const drafts = letters.filter((letter) => !known.has(letter.frame.id)).map(({ frame, label, refusal }) => ({
    ...{ id: frame.id, seq: 0, stamp: items.at(-1)?.stamp ?? null, text: label, label },
    kind: { say: 'said', press: 'pressed', join: 'joined' }[/** @type {'say'} */ (frame.kind)],
    state: refusal === null ? waiting : words.refused[refusal] ?? words.notTaken,
  }))
  return [...items, ...drafts]
}

/** @param {PaneName} name */
function isSeen(name) {
  return document.visibilityState === 'visible' && (!isNarrow.matches || document.body.dataset.shown === name)
}

/** @param {PaneName} name */
function switchButton(name) {
  return /** @type {HTMLElement} */ (document.querySelector(`[data-shows="${name}"]`))
}

/** @param {PaneName} name @param {{ unread: number }[]} listed */
function showMark(name, listed) {
  const mark = /** @type {HTMLElement} */ (switchButton(name).querySelector('.mark'))
  const count = listed.reduce((sum, person) => sum + person.unread, 0)
  mark.hidden = count === 0
  mark.textContent = count === 0 ? '' : words.unread(count)
}

/** On a narrow screen. @param {PaneName} name */
function showOnly(name) {
  document.body.dataset.shown = name
  for (const one of paneNames) switchButton(one).setAttribute('aria-pressed', String(one === name))
  panes[name].toEnd()
  show()
}

/** @param {string} text */
function showTrouble(text) {
  const trouble = /** @type {HTMLElement} */ (document.querySelector('#trouble'))
  trouble.textContent = text
  trouble.hidden = false
}

/** Halves of characters and control characters would be refused or dropped. @param {string} text */
function toReadable(text) {
  return new TextDecoder().decode(new TextEncoder().encode(text)).replace(/[^\P{Cc}\n\t]/gu, '')
}

/** @param {unknown} value @returns {value is Partial<Record<PaneName, string>>} */
function isChoice(value) {
  return typeof value === 'object' && value !== null && Object.values(value).every((one) => /^[a-z0-9-]{1,40}$/.test(one))
}

for (const name of paneNames) switchButton(name).addEventListener('click', () => showOnly(name))
document.addEventListener('visibilitychange', show)
isNarrow.addEventListener('change', show)
line.textContent = words.connecting

const invitation = new URLSearchParams(location.search).get('join')
if (invitation !== null) {
  history.replaceState(null, '', '/')
  const token = readToken(invitation)
  if (token === null) showTrouble(words.badInvitation)
  else join(token)
}
