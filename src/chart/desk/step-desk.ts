// One event of a therapist's desk.
import type { Answer } from '#src/conversation/question.ts'
import { readMessage, type Command } from '#src/conversation/reading/read-message.ts'
import type { Desk } from '../desk.ts'
import type { Draft } from '../draft.ts'
import type { Event, EventOf, Told, ToldOf } from '../event.ts'
import { bringOn, closePrompt, deliver, flushNotes, openQuestion, push, renewQuestion, sayOutdated, takePress, takeText } from '../turn.ts'
import { beginAbout } from './begin-about.ts'
import { stepClosedDesk } from './closed-desk.ts'
import { hearColleagueLeft } from './colleague-left.ts'
import { armDuty, hearOpenMatters, wakeDesk } from './daily-line.ts'
import { deskParty } from './desk-party.ts'
import { settleInAs } from './settle-in.ts'
import { invite } from './enrol-client.ts'
import { noteUnseen, show } from './show.ts'
import { mayEnrol, saySignature } from './triage-signature.ts'
import { hearUnheard } from './unheard.ts'

type Handlers = { readonly [Kind in Event['kind']]?: (draft: Draft<Desk>, event: EventOf<Kind>) => void }

const handlers: Handlers = {
  message: (draft, { text, isEdit }) => (isEdit ? undefined : takeMessage(draft, text)),
  press: takeDeskPress,
  unreadable: (draft) => draft.say(wordsOf(draft).say('common.unreadable')),
  moved: (draft, { to }) => draft.change({ contact: to }),
  reach: (draft, { isReachable }) => draft.change({ isReachable }),
  told: (draft, { told }) => hear(draft, told),
  undeliverable: (draft, event) => noteUnseen(draft, event, event.reason),
  delayed: (draft, event) => noteUnseen(draft, event, 'delayed'),
  wake: wakeDesk,
  unheard: hearUnheard,
}

/** Whoever writes or presses can be reached, whatever the network said before. */
const fromTherapist: ReadonlySet<Event['kind']> = new Set(['message', 'press', 'unreadable'])

export function stepDesk(draft: Draft<Desk>, event: Event): void {
  const { closedTo } = draft.document
  if (closedTo !== undefined) return stepClosedDesk(draft, closedTo, event)
  const handler = handlers[event.kind] as ((draft: Draft<Desk>, event: Event) => void) | undefined
  if (fromTherapist.has(event.kind) && !draft.document.isReachable) draft.change({ isReachable: true })
  handler?.(draft, event)
  flushNotes(draft, deskParty)
  armDuty(draft)
}

function wordsOf(draft: Draft<Desk>): ReturnType<Draft<Desk>['words']> {
  return draft.words(draft.document.language)
}

type Hearings = { readonly [Kind in Told['kind']]?: (draft: Draft<Desk>, told: ToldOf<Kind>) => void }

const hearings: Hearings = {
  opened,
  'colleague-left': hearColleagueLeft,
  colleagues: (draft, { cards }) => {
    draft.change({ colleagues: cards })
    for (const { chart } of draft.document.clients) draft.tell(chart, { kind: 'colleagues', cards })
  },
  client: (draft, { chart, name }) => {
    const { clients, colleagues } = draft.document
    draft.change({ clients: [...clients.filter((client) => client.chart !== chart), { chart, name }] })
    if (colleagues.length > 0) draft.tell(chart, { kind: 'colleagues', cards: colleagues })
  },
  'client-left': (draft, { chart }) => {
    const { clients, openMatters } = draft.document
    draft.change({ clients: clients.filter((one) => one.chart !== chart), openMatters: openMatters.filter((one) => one.chart !== chart) })
  },
  'open-matters': hearOpenMatters,
  show: (draft, { shown }) => show(draft, shown),
  measure: (draft, { chart, client, directions }) => beginAbout(draft, 'measuring', { chart, client, directions }),
  place: (draft, { chart, client, offers }) => beginAbout(draft, 'placing', { chart, client, offers: offers as unknown as Answer }),
  score: (draft, { chart, client, last }) => beginAbout(draft, 'disability', { chart, client, lastOn: last?.on ?? null, lastRaw: last?.raw ?? null }),
  answer: (draft, { chart, client }) => beginAbout(draft, 'answering', { chart, client }),
  clear: (draft, { chart, client, dose, seenAlerts = null }) => beginAbout(draft, 'clearing', { chart, client, startDose: dose, seenAlerts }),
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

const ownCommands = ['back', 'enrol', 'clients', 'measure', 'score', 'duty', 'invite'] as const
type OwnCommand = (typeof ownCommands)[number]

/** At a desk only a message that is nothing but a command is one; everything else may be a name or a reason. */
function commandIn(draft: Draft<Desk>, text: string): Command | OwnCommand | null {
  const words = wordsOf(draft)
  const said = text.trim().toLowerCase()
  const own = ownCommands.find((name) => words.say(`desk.say.${name}`).split('|').includes(said))
  if (own) return own
  const { lexicon } = draft.language(draft.document.language)
  const reading = said.split(/\s+/).length <= 2 ? readMessage(said, 'nothing', lexicon) : null
  return reading?.stop === true ? 'stop' : (reading?.command ?? null)
}

function takeMessage(draft: Draft<Desk>, text: string): void {
  const command = commandIn(draft, text)
  const words = wordsOf(draft)
  if (command === 'help') return help(draft)
  // What was typed answers a question that is no longer asked; it must not become the answer to another.
  const isRenewed = renewQuestion(draft, deskParty)
  const open = openQuestion(draft)
  if (open && (command === 'stop' || command === 'back')) return move(draft, command)
  if (open && isRenewed) return
  if (open) {
    const { lexicon } = draft.language(draft.document.language)
    takeText(draft, deskParty, text, readMessage(text, awaiting(open.question.kind), lexicon))
    return
  }
  if (command === 'enrol') return beginEnrolment(draft)
  if (command === 'clients') return listClients(draft)
  if (command === 'measure') return listClients(draft, 'measure')
  if (command === 'score') return listClients(draft, 'score')
  if (command === 'duty') return begin(draft, 'duty')
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
  saySignature(draft)
  if (draft.document.conversations.length > 0) bringOn(draft, deskParty)
  else menu(draft)
}

function beginEnrolment(draft: Draft<Desk>): void {
  if (mayEnrol(draft)) begin(draft, 'enrolment')
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
  const buttons = (['enrol', 'clients', 'measure', 'duty', 'invite'] as const).map((name) => [{ label: words.say(`desk.press.${name}`), data: `d:${name}` }])
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
  draft.record('colleague-invited', draft.document.name, {})
  draft.say(wordsOf(draft).say('desk.invitation.colleague', invite(draft, null)))
}

const pressed = {
  enrol: (draft: Draft<Desk>) => beginEnrolment(draft),
  clients: (draft: Draft<Desk>) => listClients(draft),
  measure: (draft: Draft<Desk>) => listClients(draft, 'measure'),
  duty: (draft: Draft<Desk>) => begin(draft, 'duty'),
  invite: inviteColleague,
} as const

function takeDeskPress(draft: Draft<Desk>, { data }: EventOf<'press'>): void {
  renewQuestion(draft, deskParty)
  const own = /^d:(enrol|clients|measure|duty|invite)$/.exec(data)
  if (own) {
    if (openQuestion(draft)) return draft.say(wordsOf(draft).say('desk.finish-first'))
    return pressed[own[1] as keyof typeof pressed](draft)
  }
  const match = /^p:(\d+):(.*)$/s.exec(data)
  if (match === null || Number(match[1]) !== draft.document.prompt?.number) return sayOutdated(draft, deskParty)
  takePress(draft, deskParty, match[2] ?? '')
}
