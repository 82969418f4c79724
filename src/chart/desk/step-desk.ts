// One event of a therapist's desk.
import type { Answer } from '#src/conversation/question.ts'
import { readMessage, type Command } from '#src/conversation/reading/read-message.ts'
import type { Desk } from '../desk.ts'
import { clinicId } from '../clinic.ts'
import type { Draft } from '../draft.ts'
import type { Event, EventOf, Shown, Told, ToldOf } from '../event.ts'
import { bringOn, closePrompt, deliver, flushNotes, openQuestion, push, sayOutdated, takePress, takeText } from '../turn.ts'
import { beginAbout } from './begin-about.ts'
import { deskParty } from './desk-party.ts'
import { settleInAs } from './settle-in.ts'
import { invite } from './enrol-client.ts'

type Handlers = { readonly [Kind in Event['kind']]?: (draft: Draft<Desk>, event: EventOf<Kind>) => void }

const handlers: Handlers = {
  message: (draft, { text, isEdit }) => (isEdit ? undefined : takeMessage(draft, text)),
  press: takeDeskPress,
  unreadable: (draft) => draft.say(wordsOf(draft).say('common.unreadable')),
  moved: (draft, { to }) => draft.change({ contact: to }),
  reach: (draft, { isReachable }) => draft.change({ isReachable }),
  told: (draft, { told }) => hear(draft, told),
  undeliverable,
}

export function stepDesk(draft: Draft<Desk>, event: Event): void {
  const handler = handlers[event.kind] as ((draft: Draft<Desk>, event: Event) => void) | undefined
  handler?.(draft, event)
  flushNotes(draft, deskParty)
}

function wordsOf(draft: Draft<Desk>): ReturnType<Draft<Desk>['words']> {
  return draft.words(draft.document.language)
}

type Hearings = { readonly [Kind in Told['kind']]?: (draft: Draft<Desk>, told: ToldOf<Kind>) => void }

const hearings: Hearings = {
  opened,
  colleagues: (draft, { cards }) => draft.change({ colleagues: cards }),
  client: (draft, { chart, name }) => {
    const others = draft.document.clients.filter((client) => client.chart !== chart)
    draft.change({ clients: [...others, { chart, name }] })
  },
  show: (draft, { shown }) => show(draft, shown),
  measure: (draft, { chart, client, directions }) => beginAbout(draft, 'measuring', { chart, client, directions }),
  place: (draft, { chart, client, offers }) => beginAbout(draft, 'placing', { chart, client, offers: offers as unknown as Answer }),
  score: (draft, { chart, client, last }) => beginAbout(draft, 'disability', { chart, client, lastOn: last?.on ?? null, lastRaw: last?.raw ?? null }),
  answer: (draft, { chart, client }) => beginAbout(draft, 'answering', { chart, client }),
  clear: (draft, { chart, client, dose }) => beginAbout(draft, 'clearing', { chart, client, startDose: dose }),
}

function hear(draft: Draft<Desk>, told: Told): void {
  const hearing = hearings[told.kind] as ((draft: Draft<Desk>, told: Told) => void) | undefined
  hearing?.(draft, told)
}

function opened(draft: Draft<Desk>, { contact, card }: ToldOf<'opened'>): void {
  if (draft.document.contact !== null) return
  draft.change({ contact })
  if (card) return settleInAs(draft, card)
  begin(draft, 'settling-in')
}

function show(draft: Draft<Desk>, { text, buttons, urgency, alert }: Shown): void {
  const { contact } = draft.document
  if (!contact) return
  const id = draft.send(contact, { text, buttons }, urgency)
  if (alert) draft.record('alert-shown', 'nuchal', { ...alert, effect: id })
}

/** An alert that cannot be delivered here goes to everybody else at once. */
function undeliverable(draft: Draft<Desk>, { effect }: EventOf<'undeliverable'>): void {
  draft.change({ isReachable: false })
  if (effect.urgency !== 'alert') return
  const text = [wordsOf(draft).say('desk.could-not-reach', { name: draft.document.name }), effect.message.text].join('\n')
  const shown: Shown = { text, buttons: effect.message.buttons, urgency: 'alert', alert: null }
  draft.tell(clinicId, { kind: 'show-all', except: draft.document.id, shown })
}

/** At a desk only a message that is nothing but a command is one; everything else may be a name or a reason. */
function commandIn(draft: Draft<Desk>, text: string): Command | 'back' | 'enrol' | 'clients' | 'measure' | 'score' | 'invite' | null {
  const words = wordsOf(draft)
  const said = text.trim().toLowerCase()
  const own = (['back', 'enrol', 'clients', 'measure', 'score', 'invite'] as const).find((name) => words.say(`desk.say.${name}`).split('|').includes(said))
  if (own) return own
  const { lexicon } = draft.language(draft.document.language)
  const reading = said.split(/\s+/).length <= 2 ? readMessage(said, 'nothing', lexicon) : null
  return reading?.stop === true ? 'stop' : (reading?.command ?? null)
}

function takeMessage(draft: Draft<Desk>, text: string): void {
  const command = commandIn(draft, text)
  const open = openQuestion(draft)
  const words = wordsOf(draft)
  if (command === 'help') return help(draft)
  if (open && (command === 'stop' || command === 'back')) return move(draft, command)
  if (open) {
    const { lexicon } = draft.language(draft.document.language)
    takeText(draft, deskParty, text, readMessage(text, awaiting(open.question.kind), lexicon))
    return
  }
  if (command === 'enrol') return begin(draft, 'enrolment')
  if (command === 'clients') return listClients(draft)
  if (command === 'measure') return listClients(draft, 'measure')
  if (command === 'score') return listClients(draft, 'score')
  if (command === 'invite') return inviteColleague(draft)
  draft.say(words.say('desk.idle'))
  menu(draft)
}

function awaiting(kind: string): 'pain' | 'yesno' | 'nothing' {
  if (kind === 'pain') return 'pain'
  return kind === 'yes-no' || kind === 'choice' || kind === 'open-choice' || kind === 'several' ? 'yesno' : 'nothing'
}

function move(draft: Draft<Desk>, command: 'stop' | 'back'): void {
  closePrompt(draft, deskParty, null)
  if (!deliver(draft, deskParty, { type: command })) draft.say(wordsOf(draft).say(`desk.cannot-${command}`))
  bringOn(draft, deskParty)
}

function help(draft: Draft<Desk>): void {
  draft.say(wordsOf(draft).say('desk.help'))
  if (openQuestion(draft)) bringOn(draft, deskParty)
  else menu(draft)
}

function begin(draft: Draft<Desk>, flow: string): void {
  push(draft, flow)
  bringOn(draft, deskParty)
}

/** What is noted so far, with the ways on as buttons. */
function menu(draft: Draft<Desk>): void {
  const words = wordsOf(draft)
  const { contact } = draft.document
  if (!contact) return
  const text = draft.notes.splice(0).join('\n\n')
  const buttons = (['enrol', 'clients', 'measure', 'invite'] as const).map((name) => [{ label: words.say(`desk.press.${name}`), data: `d:${name}` }])
  draft.send(contact, { text, buttons }, 'reply')
}

/** What a press on a name does is the client's chart's business. */
function listClients(draft: Draft<Desk>, act: 'look' | 'measure' | 'score' = 'look'): void {
  const words = wordsOf(draft)
  const { contact, clients } = draft.document
  if (!contact || clients.length === 0) return draft.say(words.say('desk.no-clients'))
  const buttons = clients.map(({ chart, name }) => [{ label: name, data: `m:${chart}:0:${act}:now` }])
  draft.send(contact, { text: words.say(`desk.clients-to.${act}`, { count: clients.length }), buttons }, 'reply')
}

function inviteColleague(draft: Draft<Desk>): void {
  draft.say(wordsOf(draft).say('desk.invitation.colleague', invite(draft, null)))
}

const pressed = {
  enrol: (draft: Draft<Desk>) => begin(draft, 'enrolment'),
  clients: (draft: Draft<Desk>) => listClients(draft),
  measure: (draft: Draft<Desk>) => listClients(draft, 'measure'),
  invite: inviteColleague,
} as const

function takeDeskPress(draft: Draft<Desk>, { data }: EventOf<'press'>): void {
  const own = /^d:(enrol|clients|measure|invite)$/.exec(data)
  if (own) {
    if (openQuestion(draft)) return draft.say(wordsOf(draft).say('desk.finish-first'))
    return pressed[own[1] as keyof typeof pressed](draft)
  }
  const match = /^p:(\d+):(.*)$/s.exec(data)
  if (match === null || Number(match[1]) !== draft.document.prompt?.number) return sayOutdated(draft, deskParty)
  takePress(draft, deskParty, match[2] ?? '')
}
