import type { Place } from '#src/domain/chain.ts'
import type { Direction, LadderId } from '#src/domain/direction.ts'
import type { AlertId, DocumentId, EffectId, EventId, Instant, LocalDate } from '#src/domain/identifier.ts'
import type { Button, Contact, Effect, Urgency } from '#src/domain/message.ts'
import type { Measurement, Plan } from '#src/domain/plan.ts'
import type { ItemScores } from '#src/rules/disability-score.ts'
import type { DeskCard } from './desk-card.ts'
import type { OpenMatters } from './open-matters.ts'

/** What a person did; `invitation` is a fresh token and its link, for whoever has one to give out. */
export interface FreshInvitation {
  readonly token: string
  readonly link: string
}

/** For whoever has none to give out. */
export const noInvitation: FreshInvitation = { token: '', link: '' }

/** Who pressed. */
export interface Actor {
  readonly desk: DocumentId
  readonly name: string
}

/** A therapist's press on a client's matter. */
export const actKinds = ['acknowledge', 'contacted', 'clear', 'permit', 'decline', 'resume', 'review', 'look', 'measure', 'place', 'score', 'explain', 'loads', 'answer'] as const
export type ActKind = (typeof actKinds)[number]

/** What one document tells another. */
export type Told =
  // to a chart
  | { readonly kind: 'enrolled'; readonly plan: Plan; readonly therapist: DeskCard | null; readonly second: DeskCard | null }
  | { readonly kind: 'therapist'; readonly therapist: DeskCard }
  | { readonly kind: 'joined'; readonly contact: Contact }
  /** Its invitation was opened, and nobody may join now. */
  | { readonly kind: 'turned-away' }
  /** `seenAlerts`: how many alerts there had been when the clearing began; absent where an older version began it. */
  | { readonly kind: 'cleared'; readonly by: Actor; readonly assessed: string; readonly reason: string; readonly dose: 'usual' | 'lowest'; readonly seenAlerts?: number }
  /** Maximal tests; they bound what the rules prescribe from the next session on. */
  | { readonly kind: 'measured'; readonly by: Actor; readonly measurements: readonly Measurement[] }
  /** Another plan instead of the present one; `by` is null where it comes from a file. */
  | {
      readonly kind: 'amended'
      readonly plan: Plan
      readonly by: Actor | null
      readonly reason: string
      /** Null where the plan names nobody new. */
      readonly therapist: DeskCard | null
      readonly second: DeskCard | null
    }
  /** A dose set by hand. */
  | { readonly kind: 'placed'; readonly by: Actor; readonly ladder: LadderId; readonly place: Place; readonly reason: string }
  /** Item scores of a disability score. */
  | { readonly kind: 'scored'; readonly by: Actor; readonly items: ItemScores }
  /** A therapist's words to the client. */
  | { readonly kind: 'answered'; readonly by: Actor; readonly text: string }
  /** An alert did not arrive at a therapist, or not yet. */
  | { readonly kind: 'unseen'; readonly alert: AlertId; readonly desk: DocumentId; readonly reason: Unseen }
  // to a clinic
  | { readonly kind: 'invited'; readonly digest: string; readonly chart: DocumentId | null; readonly expiresAt: Instant }
  | { readonly kind: 'awaiting'; readonly chart: DocumentId }
  | { readonly kind: 'settled-in'; readonly card: DeskCard }
  | { readonly kind: 'show-all'; readonly except: readonly DocumentId[] | null; readonly shown: Shown }
  // to a desk
  /** `card`: who it is, where that is known already; otherwise they are asked. */
  | { readonly kind: 'opened'; readonly contact: Contact; readonly card: Omit<DeskCard, 'desk'> | null }
  /** A therapist is here no more, and `to` takes over; a desk passes it on to its clients' charts. */
  | { readonly kind: 'colleague-left'; readonly desk: DocumentId; readonly to: DeskCard }
  /** Everybody of the clinic; a desk passes it on to its clients' charts. */
  | { readonly kind: 'colleagues'; readonly cards: readonly DeskCard[] }
  | { readonly kind: 'show'; readonly shown: Shown }
  | { readonly kind: 'client'; readonly chart: DocumentId; readonly name: string }
  | { readonly kind: 'client-left'; readonly chart: DocumentId }
  /** Null where nothing is open any more. */
  | { readonly kind: 'open-matters'; readonly chart: DocumentId; readonly matters: OpenMatters | null }
  | { readonly kind: 'answer'; readonly chart: DocumentId; readonly client: string }
  | { readonly kind: 'clear'; readonly chart: DocumentId; readonly client: string; readonly dose: string; readonly seenAlerts?: number }
  | { readonly kind: 'measure'; readonly chart: DocumentId; readonly client: string; readonly directions: readonly Direction[] }
  | { readonly kind: 'place'; readonly chart: DocumentId; readonly client: string; readonly offers: readonly LadderOnOffer[] }
  | { readonly kind: 'score'; readonly chart: DocumentId; readonly client: string; readonly last: { readonly on: LocalDate; readonly raw: number } | null }

/** The doses to which a therapist may set a client on one ladder, worded. */
export interface LadderOnOffer {
  readonly ladder: LadderId
  readonly now: string
  readonly places: readonly { readonly place: Place; readonly label: string }[]
}

/** Why an alert is not known to have arrived: `delayed` is still being tried. */
export type Unseen = 'unreachable' | 'refused' | 'delayed'

/** Something for a therapist to read, with buttons. */
export interface Shown {
  readonly text: string
  readonly buttons: readonly (readonly Button[])[]
  readonly urgency: Urgency
  /** The alert it shows, so that one that cannot be delivered goes to somebody else at once. */
  readonly alert: { readonly chart: DocumentId; readonly id: AlertId } | null
  /** Nothing is lost if it is read only at the therapist's next duty. */
  readonly mayWait?: true
  /** Comes from a colleague who is away or was not reached, and goes no further. */
  readonly isPassedOn?: true
}

/** What a network no longer brings after a silence: the presses alone, or the messages too. */
export type Lost = 'presses' | 'everything'

interface Excess {
  /** More than the network can bring answers for: a client's words are read for signs only. */
  readonly isExcess?: true
}

interface LastTry {
  /** Wrong for the last time that is answered, for a while. */
  readonly isLastTry?: true
}

export type Event = { readonly id: EventId } & (
  | ({ readonly kind: 'message'; readonly from: Contact; readonly text: string; readonly invitation: FreshInvitation; /** An earlier message written anew: no answer to the open question. */ readonly isEdit: boolean } & Excess & LastTry)
  | ({ readonly kind: 'unreadable'; readonly from: Contact } & Excess)
  | ({ readonly kind: 'press'; readonly from: Contact; readonly data: string; readonly invitation: FreshInvitation } & Excess)
  | ({ readonly kind: 'join'; readonly from: Contact; readonly token: string; readonly isKnown: boolean } & LastTry)
  | { readonly kind: 'group'; readonly from: Contact }
  | { readonly kind: 'reach'; readonly isReachable: boolean }
  | { readonly kind: 'moved'; readonly from: Contact; readonly to: Contact }
  /** `isDeaf`: no network is heard just now, so that nobody's silence means anything. */
  | { readonly kind: 'wake'; readonly isDeaf?: true }
  | { readonly kind: 'act'; readonly by: Actor; readonly act: ActKind; readonly about: string; readonly seenRevision: number }
  | { readonly kind: 'told'; readonly from: DocumentId; readonly told: Told }
  | { readonly kind: 'undeliverable'; readonly effect: Extract<Effect, { kind: 'send' }>; readonly reason: 'unreachable' | 'refused' }
  /** A reminder will not go out: too late to be of use, or perhaps out twice already, perhaps never. */
  | { readonly kind: 'unreminded'; readonly effect: Extract<Effect, { kind: 'send' }>; readonly reason: 'late' | 'unsure' }
  /** An alert still waits for its network after a minute; it goes on being tried. */
  | { readonly kind: 'delayed'; readonly effect: Extract<Effect, { kind: 'send' }> }
  /** The network was not heard in this time, and some of what people sent meanwhile will never arrive. `unsent`: what the document still owed then. */
  | { readonly kind: 'unheard'; readonly since: Instant; readonly until: Instant; readonly lost: Lost; readonly unsent: readonly EffectId[] }
  /** The clinic's first therapist will send the code of this digest. */
  | { readonly kind: 'claim-issued'; readonly digest: string }
  /** Whoever runs the clinic takes a desk away; `to` is the desk that takes over. */
  | { readonly kind: 'close-desk'; readonly desk: DocumentId; readonly to: DocumentId; readonly reason: string }
  /** So many wrong codes and invitations came within an hour that somebody may be guessing. */
  | { readonly kind: 'tried-often'; readonly tries: number }
)

export type EventOf<Kind extends Event['kind']> = Extract<Event, { kind: Kind }>
export type ToldOf<Kind extends Told['kind']> = Extract<Told, { kind: Kind }>
