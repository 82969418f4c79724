// How a clinic stands, from its documents and from what the running process has left: counts, ids and times, nothing that is
// said of or by anybody.
import type { Alert } from '#src/chart/alert.ts'
import type { Chart } from '#src/chart/chart.ts'
import type { Desk } from '#src/chart/desk.ts'
import { knownStaff } from '#src/chart/client/standby.ts'
import type { DocumentId, Instant } from '#src/domain/identifier.ts'
import type { Effect, Urgency } from '#src/domain/message.ts'
import type { AlertLevel, EscalationTimes } from '#src/domain/triage.ts'
import { minuteMs } from '#src/schedule/wall-time.ts'
import type { DocumentCopy } from '#src/ports/archive.ts'
import { silentAfterMs, type RunningState } from './running-state.ts'

/** Our choices: by when somebody of the clinic's operation has to look. */
export const limits = { timerLateMs: 5 * minuteMs, alertWaitsMs: minuteMs, messageWaitsMs: 5 * minuteMs, unheardMs: 5 * minuteMs }

export interface AlertStatus {
  readonly client: DocumentId
  readonly level: AlertLevel
  readonly since: Instant
  readonly isAcknowledged: boolean
  /** Unacknowledged past the time after which it is sent again. */
  readonly isLate: boolean
  /** Therapists to whom it did not arrive, or not yet. */
  readonly unreached: number
  readonly hasReachedNobody: boolean
}

export interface UndeliveredStatus {
  readonly channel: string
  readonly urgency: Urgency
  readonly count: number
  /** Null where no process runs that would know. */
  readonly since: Instant | null
  readonly isLate: boolean
}

export interface Status {
  readonly at: Instant
  readonly machineAt: Instant
  readonly process: { readonly state: 'running' | 'stopped' | 'silent' | 'unknown'; readonly seenAt: Instant | null }
  readonly heard: readonly { readonly channel: string; readonly at: Instant | null; readonly isLate: boolean }[]
  readonly alerts: readonly AlertStatus[]
  readonly undelivered: readonly UndeliveredStatus[]
  readonly unreachable: { readonly clients: readonly DocumentId[]; readonly therapists: readonly DocumentId[] }
  readonly timers: { readonly overdue: number; readonly oldest: { readonly document: DocumentId; readonly dueAt: Instant } | null }
  readonly locked: number
  readonly needsPerson: boolean
}

/** What is looked at of a document, whatever store keeps it. */
export type StatusDocument = Pick<DocumentCopy, 'document' | 'head' | 'owed'>

export interface StatusParts {
  readonly documents: readonly StatusDocument[]
  readonly running: RunningState | null
  readonly escalation: EscalationTimes
  /** The clinic's time; a demo's may have been moved on. */
  readonly at: Instant
  /** The machine's time, by which the process says that it runs. */
  readonly machineAt: Instant
}

export function findStatus({ documents, running, escalation, at, machineAt }: StatusParts): Status {
  const charts = documentsOf<Chart>(documents, 'chart')
  const process = processOf(running, machineAt)
  const isRunning = process.state === 'running'
  const found = {
    at,
    machineAt,
    process,
    heard: (isRunning ? (running?.heard ?? []) : []).map(({ channel, at: heardAt }) => ({ channel, at: heardAt, isLate: heardAt === null || machineAt - heardAt > limits.unheardMs })),
    alerts: charts.flatMap((chart) => chart.alerts.map((alert) => alertOf(chart, alert, escalation, at))).toSorted((a, b) => a.since - b.since),
    undelivered: isRunning && running !== null ? waitingOf(running, at) : owedOf(documents),
    unreachable: {
      clients: charts.filter(({ isReachable }) => !isReachable).map(({ id }) => id),
      therapists: documentsOf<Desk>(documents, 'desk').filter(({ isReachable }) => !isReachable).map(({ id }) => id),
    },
    timers: timersOf(documents, at),
    locked: charts.filter(({ lock }) => lock !== null).length,
  }
  return { ...found, needsPerson: needsPerson(found) }
}

type Found = Omit<Status, 'needsPerson'>

function needsPerson({ alerts, undelivered, timers, heard }: Found): boolean {
  const isAlertOpen = alerts.some(({ isLate, hasReachedNobody, isAcknowledged }) => isLate || (hasReachedNobody && !isAcknowledged))
  return isAlertOpen || timers.overdue > 0 || undelivered.some(({ isLate }) => isLate) || heard.some(({ isLate }) => isLate)
}

function documentsOf<D extends Chart | Desk>(documents: readonly StatusDocument[], kind: D['kind']): readonly D[] {
  return documents.filter(({ document }) => document.kind === kind).map(({ document }) => document as unknown as D)
}

function processOf(running: RunningState | null, at: Instant): Status['process'] {
  if (running === null) return { state: 'unknown', seenAt: null }
  if (running.isStopped) return { state: 'stopped', seenAt: running.at }
  return { state: at - running.at > silentAfterMs ? 'silent' : 'running', seenAt: running.at }
}

function alertOf(chart: Chart, alert: Alert, { resendAfter }: EscalationTimes, at: Instant): AlertStatus {
  const isOpen = alert.acknowledged === null
  const staff = knownStaff(chart)
  return {
    client: chart.id,
    level: alert.level,
    since: alert.raisedAt,
    isAcknowledged: !isOpen,
    isLate: isOpen && alert.level !== 'routine' && at - alert.raisedAt >= resendAfter[alert.level] * minuteMs,
    unreached: staff.filter(({ desk }) => alert.unreached.includes(desk)).length,
    hasReachedNobody: alert.hasReachedNobody,
  }
}

function waitingOf({ waiting }: RunningState, at: Instant): readonly UndeliveredStatus[] {
  return waiting.map((one) => ({ ...one, isLate: at - one.since > (one.urgency === 'alert' ? limits.alertWaitsMs : limits.messageWaitsMs) }))
}

/** What stands unmarked in the files while nothing runs; some of it may have gone out just before the end. */
function owedOf(documents: readonly StatusDocument[]): readonly UndeliveredStatus[] {
  const counts = new Map<string, UndeliveredStatus>()
  for (const { effect } of documents.flatMap(({ owed }) => owed)) {
    const [channel, urgency] = placeOf(effect)
    const key = `${channel} ${urgency}`
    counts.set(key, { channel, urgency, count: (counts.get(key)?.count ?? 0) + 1, since: null, isLate: true })
  }
  return [...counts.values()]
}

/** What one document owes another goes through no network. */
function placeOf(effect: Effect): readonly [channel: string, urgency: Urgency] {
  if (effect.kind === 'tell') return ['inside', 'alert']
  return [effect.to.channel, effect.kind === 'send' ? effect.urgency : 'reply']
}

function timersOf(documents: readonly StatusDocument[], at: Instant): Status['timers'] {
  const overdue = documents
    .flatMap(({ head }) => (head.nextDueAt !== null && at - head.nextDueAt > limits.timerLateMs ? [{ document: head.id, dueAt: head.nextDueAt }] : []))
    .toSorted((a, b) => a.dueAt - b.dueAt)
  return { overdue: overdue.length, oldest: overdue[0] ?? null }
}
