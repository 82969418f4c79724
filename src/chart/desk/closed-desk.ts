// A desk that is closed: its account is a stranger's, and what still comes for it goes on to whoever took over.
import type { Desk } from '../desk.ts'
import type { DeskCard } from '../desk-card.ts'
import type { Draft } from '../draft.ts'
import type { Event, Told } from '../event.ts'
import { closePrompt } from '../turn.ts'
import { deskParty } from './desk-party.ts'
import { noteUnseen } from './show.ts'

/** Each client's chart hears who takes over, and sends what is open there; nothing of this desk's is left behind. */
export function close(draft: Draft<Desk>, to: DeskCard): void {
  const { id, contact, name, clients, held, language } = draft.document
  const words = draft.words(language)
  closePrompt(draft, deskParty, null)
  if (contact) draft.send(contact, { text: words.say('desk.closed'), buttons: [] }, 'reply')
  draft.converse({ conversations: [] })
  draft.change({ contact: null, away: null, clients: [], openMatters: [], held: [], timers: [], closedTo: to })
  draft.record('desk-closed', 'nuchal', { to: to.desk, clients: clients.map(({ chart }) => chart) })
  if (clients.length > 0) {
    const text = words.say('desk.takes-over', { name, count: clients.length, clients: clients.map((client) => client.name).join(', ') })
    draft.tell(to.desk, { kind: 'show', shown: { text, buttons: [], urgency: 'reply', alert: null } })
  }
  for (const { chart } of clients) draft.tell(chart, { kind: 'colleague-left', desk: id, to })
  // The alerts of this desk's own clients come from their charts.
  const ofOthers = held.filter(({ alert }) => !clients.some(({ chart }) => chart === alert?.chart))
  for (const shown of ofOthers) draft.tell(to.desk, { kind: 'show', shown })
}

/** Nobody sits here any more. What was on its way, or comes from a chart that has not heard, must not end here. */
export function stepClosedDesk(draft: Draft<Desk>, to: DeskCard, event: Event): void {
  if (event.kind === 'told') return passOn(draft, to, event.told)
  if (event.kind === 'undeliverable') noteUnseen(draft, event, event.reason)
  if (event.kind === 'delayed') noteUnseen(draft, event, 'delayed')
}

function passOn(draft: Draft<Desk>, to: DeskCard, told: Told): void {
  if (told.kind === 'show') draft.tell(to.desk, told)
  if (told.kind === 'client' || told.kind === 'open-matters') draft.tell(told.chart, { kind: 'colleague-left', desk: draft.document.id, to })
}
