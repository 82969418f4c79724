// One event of the clinic: who may come in, and what concerns everybody.
import type { Contact } from '#src/domain/message.ts'
import { mayTakeIn } from '#src/domain/signature.ts'
import type { Clinic, Invitation } from '../clinic.ts'
import { documentIdFrom } from '../digest.ts'
import type { Draft } from '../draft.ts'
import type { Event, EventOf, Told } from '../event.ts'
import { invitationOf, opensClaim } from './admission.ts'
import { closeDesk, hasLeft } from './close-desk.ts'

type Handlers = { readonly [Kind in Event['kind']]?: (draft: Draft<Clinic>, event: EventOf<Kind>) => void }

const handlers: Handlers = {
  message: takeUnknown,
  unreadable: (draft, { from }) => turnAway(draft, from),
  press: (draft, { from }) => turnAway(draft, from),
  group: (draft, { from }) => reply(draft, from, 'clinic.group'),
  join,
  told: (draft, { told }) => hear(draft, told),
  'close-desk': closeDesk,
  'tried-often': (draft, { tries }) => tellOfTries(draft, tries),
  'claim-issued': (draft, { digest }) => {
    if (!draft.document.isClaimed) draft.change({ claimDigest: digest })
  },
}

export function stepClinic(draft: Draft<Clinic>, event: Event): void {
  const handler = handlers[event.kind] as ((draft: Draft<Clinic>, event: Event) => void) | undefined
  handler?.(draft, event)
}

function reply(draft: Draft<Clinic>, to: Contact, key: string): void {
  draft.send(to, { text: draft.words('').say(key), buttons: [] }, 'reply')
}

/** An unknown chat is told how to get an invitation; nothing of it is stored. */
function turnAway(draft: Draft<Clinic>, from: Contact): void {
  reply(draft, from, 'clinic.unknown')
}

function takeUnknown(draft: Draft<Clinic>, { from, text, id, isLastTry }: EventOf<'message'>): void {
  if (isLastTry === true) return reply(draft, from, 'clinic.too-many-tries')
  if (!opensClaim(draft.document, text)) return turnAway(draft, from)
  draft.change({ claimDigest: null, isClaimed: true })
  draft.record('claimed', 'nuchal', {})
  draft.tell(documentIdFrom('desk', id), { kind: 'opened', contact: from, card: null })
}

function join(draft: Draft<Clinic>, { from, token, id, isKnown, isLastTry }: EventOf<'join'>): void {
  if (isKnown) return reply(draft, from, 'clinic.already-here')
  if (isLastTry === true) return reply(draft, from, 'clinic.too-many-tries')
  const invitation = invitationOf(draft.document, token, draft.at)
  if (invitation === null) return reply(draft, from, 'clinic.invitation-unusable')
  // Without a therapist nobody would read an alert.
  if (invitation.for.kind === 'client' && draft.document.therapists.length === 0) return reply(draft, from, 'clinic.not-ready')
  if (invitation.for.kind === 'client' && !mayTakeIn(draft.content.signature)) {
    reply(draft, from, 'clinic.not-signed')
    return draft.tell(invitation.for.chart, { kind: 'turned-away' })
  }
  const used: Invitation = { ...invitation, usedAt: draft.at }
  draft.change({ invitations: draft.document.invitations.map((one) => (one === invitation ? used : one)) })
  draft.record('invitation-used', 'nuchal', { for: invitation.for.kind })
  if (invitation.for.kind === 'client') draft.tell(invitation.for.chart, { kind: 'joined', contact: from })
  else draft.tell(documentIdFrom('desk', id), { kind: 'opened', contact: from, card: null })
}

/** Somebody may be guessing; whoever works here should know, and need do nothing. */
function tellOfTries(draft: Draft<Clinic>, tries: number): void {
  draft.record('tried-often', 'nuchal', { tries })
  const text = draft.words('').say('clinic.tried-often', { tries })
  for (const { desk } of draft.document.therapists) draft.tell(desk, { kind: 'show', shown: { text, buttons: [], urgency: 'reply', alert: null, mayWait: true } })
}

function hear(draft: Draft<Clinic>, told: Told): void {
  if (told.kind === 'invited') {
    const { digest, chart, expiresAt } = told
    const invitation: Invitation = { digest, for: chart === null ? { kind: 'therapist' } : { kind: 'client', chart }, expiresAt, usedAt: null }
    // Long expired ones are of no use to anybody.
    const kept = draft.document.invitations.filter((one) => one.expiresAt > draft.at)
    draft.change({ invitations: [...kept, invitation] })
  }
  if (told.kind === 'settled-in' && !hasLeft(draft.document, told.card.desk)) {
    const others = draft.document.therapists.filter((card) => card.desk !== told.card.desk)
    for (const chart of draft.document.awaiting) draft.tell(chart, { kind: 'therapist', therapist: told.card })
    draft.change({ therapists: [...others, told.card], awaiting: [], isClaimed: true })
    for (const card of draft.document.therapists) draft.tell(card.desk, { kind: 'colleagues', cards: draft.document.therapists })
  }
  if (told.kind === 'awaiting') draft.change({ awaiting: [...draft.document.awaiting, told.chart] })
  if (told.kind === 'show-all') {
    const { except, shown } = told
    for (const card of draft.document.therapists) if (except === null || !except.includes(card.desk)) draft.tell(card.desk, { kind: 'show', shown })
  }
}
