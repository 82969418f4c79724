// What of a client waits for a person, in figures: a therapist's desk keeps it, so that nothing stays open unnoticed even
// where an alert itself was lost.
import type { Instant } from '#src/domain/identifier.ts'
import { alertLevels, type AlertLevel } from '#src/domain/triage.ts'
import type { Chart } from './chart.ts'

export interface OpenAlerts {
  readonly level: AlertLevel
  readonly count: number
  /** Of these, how many nobody has acknowledged. */
  readonly unacknowledged: number
  /** When the oldest was raised. */
  readonly since: Instant
}

export interface OpenMatters {
  readonly client: string
  /** The gravest level first. */
  readonly alerts: readonly OpenAlerts[]
  readonly lockedSince: Instant | null
  readonly isUnreachable: boolean
  readonly approvals: number
}

/** Null where nothing is open. */
export function openMattersOf({ plan, alerts, lock, isReachable, requests }: Chart): OpenMatters | null {
  const matters: OpenMatters = {
    client: plan?.client.name ?? '',
    alerts: alertLevels.toReversed().flatMap((level) => openOf(level, alerts)),
    lockedSince: lock?.since ?? null,
    isUnreachable: !isReachable,
    approvals: requests.filter((request) => !request.isDeclined).length,
  }
  const isNothing = matters.alerts.length === 0 && matters.lockedSince === null && !matters.isUnreachable && matters.approvals === 0
  return isNothing ? null : matters
}

function openOf(level: AlertLevel, alerts: Chart['alerts']): readonly OpenAlerts[] {
  const own = alerts.filter((alert) => alert.level === level)
  if (own.length === 0) return []
  return [
    {
      level,
      count: own.length,
      unacknowledged: own.filter((alert) => alert.acknowledged === null).length,
      since: Math.min(...own.map((alert) => alert.raisedAt)),
    },
  ]
}
