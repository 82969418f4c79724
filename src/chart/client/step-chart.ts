// One event of a chart.
import type { Chart } from '../chart.ts'
import { clinicId } from '../clinic.ts'
import type { DeskCard } from '../desk-card.ts'
import type { Draft } from '../draft.ts'
import type { Event, EventOf, Told, ToldOf } from '../event.ts'
import { bringOn, flushNotes, push } from '../turn.ts'
import { act, clearLock } from './acts.ts'
import { actButton, tellEveryDesk, tellTherapist } from './alert-message.ts'
import { applyWaitingPlan, hearAmended } from './amend-plan.ts'
import { takeClientMessage, takeClientPress, takeUnreadable } from './client-message.ts'
import { clientParty } from './client-party.ts'
import { changeAlert } from './escalate.ts'
import { hearMeasured } from './measure.ts'
import { hearScored } from './disability-record.ts'
import { hearAnswered } from './messages.ts'
import { newAlert } from './new-alert.ts'
import { hearPlaced } from './place-by-hand.ts'
import { planOf } from './plan-facts.ts'
import { say } from './say.ts'
import { askForColleagues, hearColleagues, tellTherapistsDesk } from './staff.ts'
import { hearColleagueLeft } from './colleague-left.ts'
import { tellTurnedAway } from './turned-away.ts'
import { hearUnheard } from './unheard.ts'
import { hearUnreminded } from './unreminded.ts'
import { hearUnseen, noteDelayed } from './unseen.ts'
import { wake } from './wake.ts'

type Handlers = { readonly [Kind in Event['kind']]?: (draft: Draft<Chart>, event: EventOf<Kind>) => void }

const handlers: Handlers = {
  message: takeClientMessage,
  press: takeClientPress,
  unreadable: (draft, { isExcess }) => (isExcess === true ? undefined : takeUnreadable(draft)),
  reach: (draft, { isReachable }) => setReachable(draft, isReachable),
  moved: (draft, { to }) => draft.change({ contact: to }),
  wake,
  act,
  told: (draft, { told }) => hear(draft, told),
  undeliverable: (draft) => setReachable(draft, false),
  unreminded: hearUnreminded,
  delayed: noteDelayed,
  unheard: hearUnheard,
}

/** Events that are not a chart's business leave it as it is. */
export function stepChart(draft: Draft<Chart>, event: Event): void {
  const handler = handlers[event.kind] as ((draft: Draft<Chart>, event: Event) => void) | undefined
  const isKnown = draft.document.standing !== 'blank' || event.kind === 'told'
  const before = draft.document
  // Whoever writes can be reached again, whatever the network said before.
  if (isKnown && fromClient.has(event.kind) && !draft.document.isReachable) noteReachable(draft)
  if (handler && isKnown) handler(draft, event)
  applyWaitingPlan(draft)
  tellTherapistsDesk(draft, before)
  if (event.kind === 'wake') askForColleagues(draft, before)
  // A wake-up with nothing due leaves no trace.
  if (draft.document !== before) draft.change({ revision: draft.document.revision + 1 })
}

const fromClient: ReadonlySet<Event['kind']> = new Set(['message', 'press', 'unreadable'])

function hear(draft: Draft<Chart>, told: Told): void {
  if (told.kind === 'enrolled') enrol(draft, told)
  if (told.kind === 'therapist') takeTherapist(draft, told.therapist)
  if (told.kind === 'joined') join(draft, told)
  if (told.kind === 'turned-away') tellTurnedAway(draft)
  if (told.kind === 'cleared') clearLock(draft, told)
  if (told.kind === 'measured') hearMeasured(draft, told)
  if (told.kind === 'amended') hearAmended(draft, told)
  if (told.kind === 'placed') hearPlaced(draft, told)
  if (told.kind === 'scored') hearScored(draft, told)
  if (told.kind === 'answered') hearAnswered(draft, told)
  if (told.kind === 'colleagues') hearColleagues(draft, told.cards)
  if (told.kind === 'colleague-left') hearColleagueLeft(draft, told)
  if (told.kind === 'unseen') hearUnseen(draft, told)
}

function enrol(draft: Draft<Chart>, { plan, therapist, second }: ToldOf<'enrolled'>): void {
  if (draft.document.standing !== 'blank') return
  draft.change({ plan, therapist, second, standing: 'invited', reviewedAt: draft.at })
  draft.record('enrolled', therapist?.name ?? plan.contacts.therapist.name, { protocol: plan.protocol, ladders: plan.ladders })
  if (therapist) takeTherapist(draft, therapist)
}

function takeTherapist(draft: Draft<Chart>, therapist: DeskCard): void {
  draft.change({ therapist })
  draft.tell(therapist.desk, { kind: 'client', chart: draft.document.id, name: planOf(draft.document).client.name })
}

/** The invitation was opened: the client reads what this is, and is asked for consent. */
function join(draft: Draft<Chart>, { contact }: ToldOf<'joined'>): void {
  if (draft.document.contact !== null) return
  draft.change({ contact, isReachable: true })
  draft.record('invitation-opened', 'client', { channel: contact.channel })
  push(draft, 'consent')
  bringOn(draft, clientParty)
  flushNotes(draft, clientParty)
}

/** A client who cannot be reached gets no reminders; the therapist sees it, at once where an alert is open. */
function setReachable(draft: Draft<Chart>, isReachable: boolean): void {
  if (draft.document.isReachable === isReachable) return
  if (isReachable) {
    noteReachable(draft)
    return bringOn(draft, clientParty)
  }
  draft.change({ isReachable })
  draft.record('reach', 'nuchal', { isReachable })
  const { text } = say(draft, 'therapist')
  const { client } = planOf(draft.document)
  const title = text('alert.unreachable', { client: client.name })
  const alert = newAlert(draft, { level: 'routine', sign: null, title, words: null, isConfirmed: true, told: null })
  const buttons = [[actButton(draft, 'acknowledge', alert.id, text('alert.press.acknowledge'))]]
  const shown = { text: title, buttons, urgency: draft.document.lock ? ('alert' as const) : ('reply' as const), alert: { chart: draft.document.id, id: alert.id } }
  if (!draft.document.lock) return tellTherapist(draft, shown)
  tellEveryDesk(draft, shown)
  changeAlert(draft, alert.id, { sentTo: [clinicId] })
}

function noteReachable(draft: Draft<Chart>): void {
  draft.change({ isReachable: true })
  draft.record('reach', 'nuchal', { isReachable: true })
  const text = say(draft, 'therapist').text('alert.reachable-again', { client: planOf(draft.document).client.name })
  tellTherapist(draft, { text, buttons: [], urgency: 'reply', alert: null })
}
