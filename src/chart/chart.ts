import type { Direction, LadderId } from '#src/domain/direction.ts'
import type { Dose } from '#src/domain/dose.ts'
import type { Place } from '#src/domain/chain.ts'
import type { Decision, Reason } from '#src/domain/decision.ts'
import type { DocumentId, ExerciseId, Instant, LocalDate, SessionId, SignId } from '#src/domain/identifier.ts'
import type { Contact } from '#src/domain/message.ts'
import type { Plan } from '#src/domain/plan.ts'
import type { Control, Pain, SetReport } from '#src/domain/set-report.ts'
import type { BeforeSession } from '#src/rules/before-session.ts'
import type { SetOutcome } from '#src/rules/judge-session.ts'
import type { LadderState } from '#src/rules/ladder-state.ts'
import type { Alert } from './alert.ts'
import { noConversation, type ConversationState } from './conversation-state.ts'
import type { DeskCard } from './desk-card.ts'
import { documentFormat, type DocumentFormat } from './document-format.ts'
import { noOutcomes, type Outcomes } from './outcomes.ts'
import type { Timer } from './timer.ts'
import { noTraining, type TrainingLog } from './training-log.ts'

/** What one direction is asked to do in a session. */
export interface Prescribed {
  readonly ladder: LadderId
  readonly direction: Direction
  readonly place: Place
  /** As shown when the session starts: the place's dose, or one ease down after amber pain. */
  readonly dose: Dose
  /** Why it is not what was told last time; empty where nothing changed it. */
  readonly reasons: readonly Reason[]
}

/** One set: null where it was left out or not wholly answered. */
export interface SetRecord {
  readonly direction: Direction
  readonly exercise: ExerciseId
  readonly dose: Dose
  readonly report: SetReport | null
  /** A correction to something better: it counts for the decision and changes nothing in this session. */
  readonly corrected: SetReport | null
}

/** An answer that can still be corrected. */
export type Correctable = 'pain-now' | 'morning' | 'worst-since' | 'pain' | 'control' | 'reserve'

/** The answers of the set under way. */
export interface SetUnderWay {
  readonly isFinished: boolean
  readonly pain: Pain | null
  readonly control: Control | null
  readonly reserve: number | null
  /** Corrections to something better, which count for the decision only. */
  readonly better: Partial<SetReport>
}

export interface OpenSession {
  readonly id: SessionId
  readonly on: LocalDate
  readonly startedAt: Instant
  readonly painNow: Pain | null
  /** As {@link SetRecord.corrected}. */
  readonly painNowCorrected: Pain | null
  readonly before: BeforeSession | null
  readonly hasAskedWorstSince: boolean
  readonly hasAskedMorning: boolean
  readonly hasWarmedUp: boolean
  readonly prescribed: readonly Prescribed[]
  readonly sets: readonly SetRecord[]
  readonly underWay: SetUnderWay | null
  /** A stop on one side stops both. */
  readonly stopped: readonly LadderId[]
  /** Not worked today because it was not their turn, which is no absence. */
  readonly notTheirTurn: readonly LadderId[]
  readonly endedEarly: boolean
  /** No further set is asked. */
  readonly isOver: boolean
  readonly hasRedFlag: boolean
  readonly lastAnswer: Correctable | null
  /** The set whose instructions were shown and whose report is not in yet. */
  readonly asked: { readonly direction: Direction; readonly exercise: ExerciseId; readonly dose: Dose; readonly number: number } | null
}

/** What is left of a session until the morning after has been judged and the decision is final. */
export interface PendingLadder {
  readonly ladder: LadderId
  /** In the order of work. */
  readonly directions: readonly Direction[]
  readonly place: Place
  readonly sets: readonly SetOutcome[]
  readonly isStopped: boolean
  readonly isUnmeasuredEntry: boolean
  /** What stood in the way of progress when the session ended; nothing later raises the dose. */
  readonly gates: readonly Reason[]
  /** The therapist lets it go on although it is at its lowest dose. */
  readonly isReleased: boolean
  /** The therapist has set the dose since, knowing the session and this much of the time after it; null where not. */
  readonly placed: { readonly morning: Pain | null; readonly worstSince: Pain | null } | null
}

export interface PendingSession {
  readonly id: SessionId
  readonly on: LocalDate
  readonly endedAt: Instant
  readonly painBefore: Pain | null
  readonly endedEarly: boolean
  readonly hasRedFlag: boolean
  readonly ladders: readonly PendingLadder[]
  readonly morning: Pain | null
  readonly worstSince: Pain | null
  /** Rules the therapist has been told of, as `ladder rule`. */
  readonly toldRules: readonly string[]
}

export const pauseReasons = ['ill', 'away', 'other'] as const
export type PauseReason = (typeof pauseReasons)[number]

/** A break of days that the client has told of. */
export interface Pause {
  readonly reason: PauseReason
  readonly since: Instant
  /** The local date from which training is asked for again; null where the client did not know. */
  readonly until: LocalDate | null
}

export interface Lock {
  readonly level: 'urgent' | 'emergency'
  readonly since: Instant
}

/** A plan that takes the present one's place once the open session is over. */
export interface WaitingPlan {
  readonly plan: Plan
  /** The client is told of it whether or not a dose changes. */
  readonly isTold: boolean
}

/** A question to the therapist that the rules wait for. */
export interface Request {
  readonly id: string
  readonly kind: 'rung' | 'lowest-dose'
  readonly ladder: LadderId
  readonly rung: number
  readonly exercise: ExerciseId
  readonly needsApproval: boolean
  readonly at: Instant
  /** Declined: not asked again until the client has to earn it anew. */
  readonly isDeclined: boolean
}

export interface Approval {
  readonly ladder: LadderId
  readonly rung: number
  readonly at: Instant
}

/** What is told only once it has gone on for long, or has come together. */
export interface Watch {
  /** Pain at rest above the usual at every answer since then; null where it is not. */
  readonly soreness: { readonly since: LocalDate; readonly isTold: boolean } | null
  /** Since when no ladder has gone beyond its highest place so far; null before the first session has closed. */
  readonly stepUp: { readonly since: LocalDate; readonly highest: Readonly<Partial<Record<LadderId, Place>>> } | null
  /** Signs of general illness told so far, each when it was last told. */
  readonly illness: readonly { readonly sign: SignId; readonly at: Instant }[]
}

/** A closed session in one line, for whoever has to judge at a glance. */
export interface SessionLine {
  readonly on: LocalDate
  readonly setsDone: number
  readonly setsAsked: number
  readonly worstPain: Pain | null
  readonly worstControl: Control | null
}

/** One client's whole record, but for the entries, which the store keeps. */
export interface Chart extends ConversationState {
  readonly kind: 'chart'
  readonly id: DocumentId
  readonly format: DocumentFormat
  /** Counts the events that changed it; a therapist's press says which one they saw. */
  readonly revision: number
  readonly standing: 'blank' | 'invited' | 'active' | 'refused' | 'withdrawn'
  /** Null only while `standing` is `blank`. */
  readonly plan: Plan | null
  readonly amendment: WaitingPlan | null
  readonly therapist: DeskCard | null
  readonly second: DeskCard | null
  /** Everybody of the clinic as last heard of, so that it is known at once who is on duty. */
  readonly colleagues: readonly DeskCard[]
  /** False where a version stored it whose desks kept less of their clients: then the therapist's desk hears all at the next event. */
  readonly isKnownToDesk: boolean
  readonly contact: Contact | null
  readonly isReachable: boolean
  readonly consentedAt: Instant | null
  readonly pause: Pause | null
  readonly reviewedAt: Instant
  /** Exercises shown in person, beyond those of the plan. */
  readonly shown: readonly ExerciseId[]
  readonly states: Readonly<Partial<Record<LadderId, LadderState>>>
  readonly approvals: readonly Approval[]
  readonly requests: readonly Request[]
  readonly lock: Lock | null
  /** Open ones; a routine one goes when acknowledged, the others when the lock is cleared. */
  readonly alerts: readonly Alert[]
  readonly alertsRaised: number
  readonly session: OpenSession | null
  readonly pending: PendingSession | null
  readonly lastDecisions: readonly { readonly ladder: LadderId; readonly decision: Decision }[]
  /** The newest last, at most five. */
  readonly history: readonly SessionLine[]
  readonly lastSessionOn: LocalDate | null
  readonly lastSessionAt: Instant | null
  readonly lastReminderOn: LocalDate | null
  readonly lastFullScreenAt: Instant | null
  readonly outcomes: Outcomes
  readonly training: TrainingLog
  /** Left out while there is nothing to watch. */
  readonly watch?: Watch
  readonly timers: readonly Timer[]
}

export function newChart(id: DocumentId): Chart {
  return {
    kind: 'chart',
    id,
    format: documentFormat,
    revision: 0,
    standing: 'blank',
    plan: null,
    amendment: null,
    therapist: null,
    second: null,
    colleagues: [],
    isKnownToDesk: true,
    contact: null,
    isReachable: true,
    consentedAt: null,
    pause: null,
    reviewedAt: 0,
    shown: [],
    states: {},
    approvals: [],
    requests: [],
    lock: null,
    alerts: [],
    alertsRaised: 0,
    session: null,
    pending: null,
    lastDecisions: [],
    history: [],
    lastSessionOn: null,
    lastSessionAt: null,
    lastReminderOn: null,
    lastFullScreenAt: null,
    outcomes: noOutcomes,
    training: noTraining,
    timers: [],
    ...noConversation,
  }
}
