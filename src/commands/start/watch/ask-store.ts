import type { Chart } from '#src/chart/chart.ts'
import type { Wait } from '#src/delivery/wait.ts'
import type { Instant } from '#src/domain/identifier.ts'
import { alertLevels, type AlertLevel } from '#src/domain/triage.ts'
import type { Store } from '#src/ports/store.ts'

export interface AlertCount {
  readonly level: AlertLevel
  readonly acknowledged: boolean
  readonly count: number
}

/** Our choice: whoever asks how things stand has seldom longer. */
const withinMs = 5_000

/** Null if the store failed or did not answer in time. */
export async function askInTime<T>(ask: () => Promise<T>, wait: Wait): Promise<{ readonly value: T } | null> {
  const over = new AbortController()
  const asked = ask().then(
    (value) => ({ value }),
    () => null,
  )
  const found = await Promise.race([asked, wait(withinMs, over.signal).then(() => null)])
  over.abort()
  return found
}

/** Of every level, also where there is none. Only charts with an open alert are read. */
export async function countOpenAlerts(store: Store): Promise<readonly AlertCount[]> {
  const heads = (await store.heads('chart')).filter(({ openAlerts }) => openAlerts > 0)
  const charts = await Promise.all(heads.map(({ id }) => store.read<Chart>(id)))
  const alerts = charts.flatMap((chart) => chart?.alerts ?? [])
  return alertLevels.flatMap((level) =>
    [false, true].map((acknowledged) => ({
      level,
      acknowledged,
      count: alerts.filter((alert) => alert.level === level && (alert.acknowledged !== null) === acknowledged).length,
    })),
  )
}

/** How long the most overdue timer has been due, in ms. */
export async function findDueLag(store: Store, at: Instant): Promise<number> {
  const earliest = await store.nextDueAt()
  return earliest === null ? 0 : Math.max(0, at - earliest)
}
