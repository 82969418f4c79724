import type { Instant } from '#src/domain/identifier.ts'
import { minuteMs } from '#src/schedule/wall-time.ts'
import type { AlertStatus, Status } from './find-status.ts'

/** For a script: instants as ISO 8601. */
export function statusAsJson(status: Status): string {
  const instants = new Set(['at', 'machineAt', 'seenAt', 'since', 'dueAt'])
  return JSON.stringify(status, (key, value: unknown) => (instants.has(key) && typeof value === 'number' ? iso(value) : value))
}

/** For whoever runs it: a line a matter, what needs a person marked. */
export function printStatus(status: Status): string {
  const { alerts, at, heard, locked, machineAt, process, timers, undelivered, unreachable } = status
  const ago = (instant: Instant | null, now: Instant): string => (instant === null ? 'unknown' : `${describeAge(now - instant)} ago`)
  const mark = (isMarked: boolean): string => (isMarked ? '  ! ' : '    ')
  return [
    `Process: ${process.state}${process.seenAt === null ? '' : `, last seen ${ago(process.seenAt, machineAt)}`}`,
    ...heard.map((one) => `${mark(one.isLate)}${one.channel} last heard: ${ago(one.at, machineAt)}`),
    `Open alerts: ${alerts.length}`,
    ...alerts.map((alert) => `${mark(alert.isLate || (alert.hasReachedNobody && !alert.isAcknowledged))}${describeAlert(alert, at)}`),
    `Locked clients: ${locked}`,
    `Undelivered: ${undelivered.reduce((sum, { count }) => sum + count, 0)}${undelivered.length > 0 && process.state !== 'running' ? ' (some may have gone out just before the end)' : ''}`,
    ...undelivered.map((one) => `${mark(one.isLate)}${one.channel}, ${one.urgency}: ${one.count}, oldest ${one.since === null ? 'unknown' : describeAge(at - one.since)}`),
    `Unreachable: ${unreachable.clients.length} clients, ${unreachable.therapists.length} therapists`,
    ...[...unreachable.clients, ...unreachable.therapists].map((id) => `    ${id}`),
    `Overdue timers: ${timers.overdue}`,
    ...(timers.oldest === null ? [] : [`  ! ${timers.oldest.document}, due ${ago(timers.oldest.dueAt, at)}`]),
    status.needsPerson ? 'Something needs a person: see the lines marked with !' : 'Nothing is overdue.',
  ].join('\n')
}

function describeAlert({ client, level, since, isAcknowledged, unreached, hasReachedNobody }: AlertStatus, at: Instant): string {
  const reach = hasReachedNobody ? ', arrived at nobody' : unreached > 0 ? `, not arrived at ${unreached}` : ''
  return `${client}: ${level}, open for ${describeAge(at - since)}, ${isAcknowledged ? 'acknowledged' : 'not acknowledged'}${reach}`
}

function describeAge(ms: number): string {
  const minutes = Math.max(0, Math.floor(ms / minuteMs))
  if (minutes < 60) return `${minutes} min`
  return minutes < 48 * 60 ? `${Math.floor(minutes / 60)} h ${minutes % 60} min` : `${Math.floor(minutes / 1440)} days`
}

function iso(instant: Instant): string {
  return new Date(instant).toISOString()
}
